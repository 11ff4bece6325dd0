/** Numbers as the screens write them. */
/**
 * @param {number} value percent
 * @returns {string} two decimals, halves to even as the engine rounds them, a true minus sign
 */
export function percent(value) {
  const half = Math.abs(value * 100) % 1 === 0.5;
  const even = half ? (2 * Math.round((value * 100) / 2)) / 100 : value;
  return even
    .toFixed(2)
    .replace(/^-(0\.00)$/, '$1')
    .replace('-', '−');
}

/** @param {string} text of the engine @returns {string} with a capital and a full stop */
export function sentence(text) {
  return text && `${text[0].toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
}
