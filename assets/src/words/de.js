/** German, the other language: fetched by app/speech.js when it is wanted. */
import app from './de-app.js';
import more from './de-bike-more.js';
import bikes from './de-bikes.js';
import engine from './de-engine.js';
import { codes, faults as messages, terms } from './de-faults.js';
import fit from './de-fit.js';
import kit from './de-kit.js';
import glass from './de-glass.js';
import join from './de-join.js';
import photo, { engine as photoEngine } from './de-photo.js';
import round from './de-round.js';

/** @type {import('./language.js').Language} */
export const german = {
  name: 'de',
  words: [app, bikes, more, fit, round, kit, glass, join, photo],
  engine: { ...engine, ...photoEngine },
  faults: { messages, codes, terms },
};
