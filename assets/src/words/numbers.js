/** Numbers as the screens write them. */
/** @param {number} value percent @returns {string} two decimals, a true minus sign */
export function percent(value) {
  return value.toFixed(2).replace(/^-(0\.00)$/, '$1').replace('-', '−');
}
