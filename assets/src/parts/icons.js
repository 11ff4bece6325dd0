/** Line drawings of the instruments and places, in a box of 24 by 24. */
import { html, svg } from 'lit';

const DRAWINGS = {
  rule: svg`<path d="M2 8h20v8H2zM6 8v4M10 8v3M14 8v4M18 8v3"/>`,
  gauge: svg`<path d="M3 7h18v4h-2v5h-3v-5H8v3H5v-3H3z"/>`,
  compare: svg`<path d="M4 3h16M8 3v13M16 3v16"/><circle cx="8" cy="18" r="2"/><circle cx="16" cy="21" r="2"/>`,
  caliper: svg`<path d="M2 5h20v4H2zM5 9v11l3-4V9M15 9v7l3 4V9"/>`,
  screen: svg`<path d="M7 2h10v20H7zM7 6h10M7 18h10"/><circle cx="12" cy="12" r="1.5"/>`,
  photo: svg`<path d="M3 7h4l2-3h6l2 3h4v13H3z"/><circle cx="12" cy="13" r="4"/>`,
  check: svg`<path d="M3 4v5M8 4v3M13 4v3M18 4v5M3 17h11"/><circle cx="18" cy="17" r="3.5"/>`,
  bikes: svg`<circle cx="5.5" cy="16" r="3.8"/><circle cx="18.5" cy="16" r="3.8"/><path d="M5.5 16l4-7.5h6l3 7.5M9.5 8.5l3 7.5h-7M12.5 16l3-7.5-.7-2.5h3M8 6.5h3"/>`,
  odometer: svg`<path d="M2 7h20v10H2zM8.7 7v10M15.3 7v10M5 10.5v3M12 10.5v3"/>`,
  ride: svg`<circle cx="4.5" cy="18.5" r="2"/><circle cx="19.5" cy="5.5" r="2"/><path d="M6.5 18.5H15a3.2 3.2 0 0 0 0-6.5H9a3.2 3.2 0 0 1 0-6.5h8.5"/>`,
  week: svg`<path d="M3 5h18v16H3zM3 10h18M8 2.5V7M16 2.5V7M7 15.5h10"/>`,
  file: svg`<path d="M5 2.5h9l5 5v14H5zM14 2.5v5h5M8.5 17.5l2.5-4 2.5 2.5 2-3.5"/>`,
  kit: svg`<path d="M3 9h18v11H3zM8 9V5h8v4M3 14h18M12 12v4"/>`,
  fit: svg`<path d="M6 7h12a5 5 0 0 1 0 10H6A5 5 0 0 1 6 7z"/><circle cx="6.5" cy="12" r="1.6"/><circle cx="17.5" cy="12" r="1.6"/>`,
  round: svg`<path d="M4 4h11v5H4zM4 13h11M4 18h11M18 6.5l1.5 1.5L22 4.5"/>`,
  which: svg`<path d="M3 3v18h3M3 8h7M3 13h11M3 18h18M3 3h4"/>`,
  long: svg`<circle cx="16.5" cy="12" r="5.5"/><circle cx="5" cy="12" r="2.5"/><path d="M4.6 9.5l11-3M4.6 14.5l11 3"/>`,
  gears: svg`<path d="M4 3v18M20 3v18M4 6h16M4 11h16M4 15h16M4 18.5h16"/>`,
  mark: svg`<path d="M2 5v4M8 5v2M14 5v2M20 5v4M2 17h14"/><circle cx="19" cy="17" r="3"/>`,
};

/** @typedef {keyof typeof DRAWINGS} IconName */

/** @param {IconName} name */
export function icon(name) {
  return html`<svg class="icon" viewBox="0 0 24 24" aria-hidden="true">${DRAWINGS[name]}</svg>`;
}
