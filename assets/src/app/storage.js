/** Whether the browser keeps what it was given for good, and how much that is. */
import { set } from './store.js';

/** Looks it up without asking the rider anything. */
export async function lookAtStorage() {
  const { storage } = navigator;
  if (!storage?.persisted) return;
  const [persisted, { usage = 0, quota = 0 }] = await Promise.all([storage.persisted(), storage.estimate()]);
  set({ persisted, estimate: { used: usage, quota } });
}

/** Asks the browser to keep it; some ask the rider, most decide by themselves. */
export async function askToPersist() {
  await navigator.storage?.persist?.();
  await lookAtStorage();
}
