/** Lists of tooth counts as people write them. */

/**
 * @param {string} text "50 34", "11-13-15", "11, 13, 15", "11.13.15" or "50/34t":
 *   whatever stands between the numbers only keeps them apart
 * @returns {number[]|null} null when it holds a letter or number that cannot be one
 */
export function teeth(text) {
  const bare = text.replace(/t(eeth)?\b/gi, ' ');
  if (/[^\d\s.,;:/+\-–—·|xX×&]/.test(bare) || /\d{4}/.test(bare)) return null;
  return (bare.match(/\d+/g) ?? []).map(Number);
}

/** @param {number[]} counts @returns {string} "11 · 13 · 15" */
export function showTeeth(counts) {
  return counts.join(' · ');
}

/**
 * @param {string} text one whole number
 * @returns {number|null} null when empty, NaN when it is not one
 */
export function whole(text) {
  const bare = text.trim();
  if (!bare) return null;
  return /^\d{1,4}$/.test(bare) ? Number(bare) : NaN;
}

/**
 * @param {string} text a decimal number, with a comma or a point
 * @returns {number|null} null when empty, NaN when it is not one
 */
export function decimal(text) {
  const bare = text.trim().replace(/\s*%$/, '').replace(',', '.');
  if (!bare) return null;
  return /^\d{1,6}(\.\d*)?$|^\.\d+$/.test(bare) ? Number(bare) : NaN;
}
