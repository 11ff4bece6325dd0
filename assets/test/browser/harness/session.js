/** The harness for scripts that are no tests: what would end with a test ends with the work. */

/**
 * @param {(t: {after: (done: () => Promise<void>) => void}) => Promise<void>} work
 * @returns {Promise<void>}
 */
export async function session(work) {
  /** @type {(() => Promise<void>)[]} */
  const ends = [];
  try {
    await work({ after: (done) => void ends.push(done) });
  } finally {
    for (const end of ends.reverse()) await end();
  }
}
