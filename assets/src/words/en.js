/**
 * Every text of the screens, in English: one list of catalogues, looked through
 * as it stands, for putting hundreds of texts into one object keeps a phone busy.
 * Values stand in braces. The engine's reasons and cautions come from its own catalogue.
 */
import app from './en-app.js';
import more from './en-bike-more.js';
import bikes from './en-bikes.js';
import fit from './en-fit.js';
import glass from './en-glass.js';
import join from './en-join.js';
import kit from './en-kit.js';
import photo from './en-photo.js';
import round from './en-round.js';

export const english = [app, bikes, more, fit, round, kit, glass, join, photo];
