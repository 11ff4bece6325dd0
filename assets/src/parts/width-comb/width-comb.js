/**
 * The width comb: outer widths of the chain families on one scale, and across
 * them what the caliper read, with its band. The likelier a family, the
 * fuller its tooth; the percentage stands beside it.
 */
import { html, nothing, svg } from 'lit';
import { share } from '../fit-numbers.js';
import { familyName } from '../../words/engine.js';
import { fixed } from '../../words/numbers.js';
import { named, t } from '../../words/t.js';
import { ROW, TOP, WIDTH, view } from './geometry.js';

/** @typedef {import('./geometry.js').Comb} Comb */

/** From this probability on a family's tooth is filled; below, it is an outline. */
const SOLID = 0.1;

/** @param {Comb} comb */
export function widthComb(comb) {
  const seen = view(comb);
  const likely = comb.families.find(
    (family) => family.probability === Math.max(...comb.families.map((one) => one.probability)),
  );
  const label =
    comb.reading_mm === null
      ? t('comb.label.none')
      : t('comb.label', {
          mm: fixed(comb.reading_mm, 2),
          name: likely?.probability ? familyName(likely) : t('comb.nobody'),
        });
  return html`<figure class="picture">
    <svg viewBox="0 0 ${WIDTH} ${seen.height}" role="img" aria-label=${label}>
      ${seen.band ? svg`<rect class="comb-band" x=${seen.band.x} y=${TOP - 4} width=${Math.max(seen.band.width, 1)} height=${seen.height - TOP + 2}/>` : nothing}
      ${scale(seen)} ${seen.teeth.map(tooth)} ${reading(seen)}
    </svg>
    <figcaption class="soft small">${t('comb.caption')}</figcaption>
  </figure>`;
}

/** @param {import('./geometry.js').View} seen */
function scale({ marks, height }) {
  const [first, last] = [marks[0].x, marks[marks.length - 1].x];
  return svg`<path class="comb-spine" d="M${first} ${TOP - 5}H${last}"/>
    ${marks.map(
      ({ x, text }) => svg`<path class="comb-grid" d="M${x} ${TOP - 5}V${height}"/>
      <text class="comb-text middle" x=${x} y=${TOP - 10}>${text}</text>`,
    )}
    <text class="comb-text" x=${last + 8} y=${TOP - 10}>mm</text>`;
}

/** @param {import('./geometry.js').Tooth} tooth */
function tooth({ x, y, width, family: { class: code, probability } }) {
  const look = probability >= SOLID ? 'comb-tooth solid' : 'comb-tooth';
  return svg`<text class="comb-text end ${probability >= SOLID ? 'strong' : ''}" x="54" y=${y + 15}>${named('comb', code)}</text>
    <path class="comb-root" d="M60 ${y + ROW / 2}H${x}"/>
    <rect class=${look} x=${x} y=${y + 5} width=${Math.max(width, 2)} height=${ROW - 10}/>
    ${probability > 0 ? svg`<text class="comb-text strong end" x=${WIDTH - 2} y=${y + 16}>${share(probability)}</text>` : nothing}`;
}

/** @param {import('./geometry.js').View} seen */
function reading({ reading: at, height }) {
  if (!at) return nothing;
  if (at.off)
    return svg`<path class="comb-jaw" d="M${at.x - 4 * at.off} ${TOP - 4}l${10 * at.off} 7l${-10 * at.off} 7z"/>`;
  return svg`<path class="comb-hair" d="M${at.x} ${TOP - 5}V${height}"/><path class="comb-jaw" d="M${at.x - 6} ${TOP - 8}h12l-6 9z"/>`;
}
