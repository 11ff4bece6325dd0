/** Builds the page with doors: see doors.js. */
import { buildEdition } from './edition.js';

const SCRIPT = `
import { now as state } from '../app/store.js';
import { addGarage, commit } from '../data/garage-store.js';
import * as garageDoors from '../data/garage.js';
import * as sharingDoors from '../sync/sharing.js';
const text = async () => (await sharingDoors.exportAll()).blob.text();
const take = (file) => sharingDoors.importFile(new Blob([file]));
globalThis.doors = { addGarage, commit, ...garageDoors, ...sharingDoors, exportText: text, importText: take, state };
`;

/** Names the program with doors for all files of a run, so that each need not build its own (run.js). */
export const DOORS = 'TAUTSPAN_DOORS';

/** @returns {ReturnType<typeof buildEdition>} */
export function buildDoors() {
  return buildEdition('doors', SCRIPT);
}
