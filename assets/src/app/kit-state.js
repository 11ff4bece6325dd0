/** What Kit and the demo know right now; part of the store. */
import { recall } from '../data/local.js';

/**
 * @typedef {{name: string, device: string, link: string, role: 'leader'|'checker'|'viewer', uses: number,
 *   days: number}} ShareForm what is typed and chosen for sharing
 * @typedef {{form: ShareForm, busy: string, fault: string, done: string,
 *   invited: {url: string, role: ShareForm['role'], uses: number, days: number}|null,
 *   devices: import('../sync/sharing.js').Device[]|null, asking: string,
 *   role: import('../sync/sharing.js').Device['role']|null}} ShareState
 *   `busy`: what is under way; `fault` and `done`: what came of it, in words; `asking`: which step is asked about
 *   once more; `role`: chosen for the phone that is asked about
 * @typedef {{busy: {step?: 'look'|'take', done: number, of: number}|null, fault: string, done: string, asking: boolean,
 *   deleted: {file: Blob, name: string}|null}} BackupState `step`: a file is looked through or taken in; `deleted`: what an undo brings back
 * @typedef {{name: string, kind: 'rule'|'gauge'|'compare'|'caliper', marks: import('../data/lengths.js').MarkName,
 *   steps: string, bears_on: 'opposed_rollers'|'same_side', bias: string}} ToolForm an instrument as typed
 * @typedef {{id: string, form: ToolForm, fault: string, done: ''|'saved'|'removed',
 *   removed: {id: string, name: string}|null}} ToolState `id`: of the instrument that is edited, empty for a new one
 * @typedef {{demo: {done: number, of: number}|null, demoFailed: boolean, share: ShareState, backup: BackupState,
 *   tool: ToolState}} KitState `demo`: how far it is made, null when none is being made
 */

/** @type {ShareForm} */
const NO_SHARE_FORM = { name: '', device: '', link: '', role: 'checker', uses: 5, days: 1 };

/** @type {ToolForm} */
export const NO_TOOL = { name: '', kind: 'rule', marks: 'in32', steps: '', bears_on: 'same_side', bias: '' };

/** @type {BackupState} */
const NO_BACKUP = { busy: null, fault: '', done: '', asking: false, deleted: null };

/** @type {Omit<ShareState, 'form'>} */
export const NO_SHARE = { busy: '', fault: '', done: '', asking: '', role: null, invited: null, devices: null };

/** @returns {KitState} with what was typed before a reload */
export function recallKit() {
  return {
    demo: null,
    demoFailed: false,
    share: { ...NO_SHARE, form: recall('share', NO_SHARE_FORM) },
    backup: NO_BACKUP,
    tool: { ...recall('tool', { id: '', form: NO_TOOL }), fault: '', done: '', removed: null },
  };
}
