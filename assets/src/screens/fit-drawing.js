/** The drive drawing with its table, for both kinds of drive. */
import { html } from 'lit';
import { driveDrawing } from '../parts/drive-drawing/drive-drawing.js';
import { length } from '../parts/fit-numbers.js';
import { fixed } from '../words/numbers.js';
import { t } from '../words/t.js';
import { facts } from './fit-parts.js';

/**
 * @param {{drawing: any, ring: number, sprocket: number, hang: string, caption: string,
 *   units: import('../data/settings.js').Settings['units']}} model drawing as the engine gives it; hang: the slack in words
 */
export function drawn({ drawing, ring, sprocket, hang, caption, units }) {
  const apart = length(drawing.centre_mm, units);
  return html`${driveDrawing({
    drawing,
    ring,
    sprocket,
    hang,
    caption,
    centre: apart,
    label: t('long.picture.label', { ring, sprocket, length: apart, hang }),
  })}
    <details class="fold"><summary>${t('long.picture.table')}</summary>${facts([
      [t('long.picture.centre.name'), apart],
      [t('long.picture.ring.name'), length(drawing.ring_radius_mm, units)],
      [t('long.picture.sprocket.name'), length(drawing.sprocket_radius_mm, units)],
      [t('long.picture.straight.name'), length(drawing.straight_mm, units)],
      [
        t('long.picture.wrap.name'),
        t('long.picture.wrap', {
          ring: fixed(drawing.ring_wrap_deg, 1),
          sprocket: fixed(drawing.sprocket_wrap_deg, 1),
        }),
      ],
      [t('long.picture.sag.name'), length(drawing.sag_mm, units)],
    ])}</details>`;
}
