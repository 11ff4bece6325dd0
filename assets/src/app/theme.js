/** Paper or slate: the phone's wish unless the rider says otherwise. */

/** @param {import('../data/settings.js').Settings['theme']} theme */
export function applyTheme(theme) {
  const { dataset } = document.documentElement;
  if (theme === 'system') delete dataset.theme;
  else dataset.theme = theme;
}
