/**
 * The wear fan: what was read so far, the middle course onward with its 5 to
 * 95 % band, the limit, where to check again, and earlier chains behind.
 */
import { html, nothing, svg } from 'lit';
import { about, far, figure, within } from '../distances.js';
import { exact, localised, percent } from '../../words/numbers.js';
import { t } from '../../words/t.js';
import { HEIGHT, PAPER, WIDTH, view } from './geometry.js';

/**
 * @typedef {import('./geometry.js').Forecast} Forecast
 * @typedef {import('./geometry.js').View} View
 * @typedef {import('./geometry.js').Pin} Pin
 * @typedef {import('../distances.js').Units} Units
 */

const RIGHT = PAPER.x + PAPER.width;
const FOOT = PAPER.y + PAPER.height;

/** @param {Forecast} forecast an answer of the calculation @param {Units} units */
export function wearFan(forecast, units) {
  const seen = view(forecast, units);
  return html`<figure class="picture fan">
    <svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-label=${inWords(forecast, units)}>
      ${scales(seen, units)}
      <svg x=${PAPER.x} y=${PAPER.y} width=${PAPER.width} height=${PAPER.height}
        viewBox="${PAPER.x} ${PAPER.y} ${PAPER.width} ${PAPER.height}">
        ${courses(seen)}
      </svg>
      ${seen.pins.map(mark)} ${heads(seen, forecast, units)}
    </svg>
    <figcaption class="soft small">${caption(seen, forecast)}</figcaption>
  </figure>`;
}

/** @param {View} seen @param {Units} units */
function scales({ across, up, limit }, units) {
  return svg`<rect class="fan-paper" x=${PAPER.x} y=${PAPER.y} width=${PAPER.width} height=${PAPER.height}/>
    ${up.map(
      ({ at, text }) => svg`<path class="fan-grid" d="M${PAPER.x} ${at}H${RIGHT}"/>
      ${Math.abs(at - limit) < 11 ? nothing : svg`<text class="fan-text end" x=${PAPER.x - 5} y=${at + 4}>${localised(text)}</text>`}`,
    )}
    ${across.map(
      ({ at, text }) => svg`<path class="fan-tick" d="M${at} ${FOOT}v5"/>
      <text class="fan-text middle" x=${Math.min(at, RIGHT - 8)} y=${FOOT + 18}>${text}</text>`,
    )}
    <text class="fan-text end" x=${RIGHT} y=${FOOT + 33}>${t(units === 'imperial' ? 'fan.axis.mi' : 'fan.axis.km')}</text>`;
}

/** What is cut off at the edges of the paper. @param {View} seen */
function courses({ band, low, middle, high, limit, now, earlier }) {
  return svg`<rect class="fan-beyond" x=${PAPER.x} y=${PAPER.y} width=${PAPER.width} height=${Math.max(0, limit - PAPER.y)}/>
    ${earlier.map(
      (one) => svg`<polyline class="fan-earlier" points=${one.line}/>
      ${one.pins.map((at) =>
        at.y === null
          ? svg`<path class="fan-earlier" d="M${at.x} ${at.top}V${at.bottom}"/>`
          : svg`<circle class="fan-earlier-pin" cx=${at.x} cy=${at.y} r="2.5"/>`,
      )}`,
    )}
    <polygon class="fan-band" points=${band}/>
    <polyline class="fan-edge" points=${low}/><polyline class="fan-edge" points=${high}/>
    <path class="fan-limit" d="M${PAPER.x} ${limit}H${RIGHT}"/>
    <path class="fan-now" d="M${now} ${PAPER.y}V${FOOT}"/>
    <polyline class="fan-middle" points=${middle}/>`;
}

/** A reading: a pin with its error bar, or the bracket a gauge leaves. @param {Pin} pin */
function mark(pin) {
  if (pin.off) {
    const y = pin.off > 0 ? PAPER.y : FOOT;
    return svg`<path class=${pin.aside ? 'fan-off aside' : 'fan-off'} d="M${pin.x - 5} ${y + 9 * pin.off}h10l-5 ${-8 * pin.off}z"/>`;
  }
  return pin.y === null ? bracket(pin) : value(pin, pin.y);
}

/** @param {Pin} pin @param {number} y */
function value({ x, top, bottom, aside }, y) {
  const bar = svg`<path class=${aside ? 'fan-bar aside' : 'fan-bar'} d="M${x} ${top}V${bottom}M${x - 3.5} ${top}h7M${x - 3.5} ${bottom}h7"/>`;
  if (aside) return svg`${bar}<path class="fan-cross" d="M${x - 5} ${y - 5}l10 10M${x + 5} ${y - 5}l-10 10"/>`;
  return svg`${bar}<circle class="fan-pin" cx=${x} cy=${y} r="4.5"/>`;
}

/** An end that was not tried runs out in an arrow. @param {Pin} pin */
function bracket({ x, top, bottom, openTop, openBottom, aside }) {
  const head = openTop ? `M${x - 4} ${top + 7}l4 -6l4 6` : `M${x - 4} ${top}h8`;
  const foot = openBottom ? `M${x - 4} ${bottom - 7}l4 6l4 -6` : `M${x - 4} ${bottom}h8`;
  return svg`<path class=${aside ? 'fan-bracket aside' : 'fan-bracket'} d="M${x} ${top + (openTop ? 1 : 0)}V${bottom}${head}${foot}"/>
    ${aside ? svg`<path class="fan-cross" d="M${x - 5} ${(top + bottom) / 2 - 5}l10 10M${x + 5} ${(top + bottom) / 2 - 5}l-10 10"/>` : nothing}`;
}

/** Room for the words beside the mark. */
const WORDS = 156;

/** The limit's figure, now, and the mark where to check again. @param {View} seen @param {Forecast} forecast @param {Units} units */
function heads({ limit, now, check }, { limit_percent, check_again_in_km }, units) {
  const text = check_again_in_km > 0 ? t('fan.check', { far: within(check_again_in_km, units) }) : t('fan.check.now');
  const turn = check + WORDS > WIDTH;
  const room = turn ? check - now > WORDS + 8 : check - now > 12 && now > PAPER.x + 24;
  return svg`<text class="fan-text end strong" x=${PAPER.x - 5} y=${limit + 4}>${exact(limit_percent)}</text>
    <path class="fan-check" d="M${check} ${PAPER.y - 1}V${FOOT}"/>
    <path class="fan-flag" d="M${check - 6} ${PAPER.y - 10}h12l-6 10z"/>
    <text class="fan-text strong ${turn ? 'end' : ''}" x=${turn ? check - 9 : check + 9} y=${PAPER.y - 7}>${text}</text>
    ${room ? svg`<text class="fan-text end" x=${now + 2} y=${PAPER.y - 7}>${t('fan.now')}</text>` : nothing}`;
}

/** @param {View} seen @param {Forecast} forecast */
function caption({ hidden, begins }, { earlier_chains, set_aside }) {
  return [
    t('fan.caption'),
    ...(earlier_chains.length ? [t('fan.caption.earlier')] : []),
    ...(set_aside.length ? [t('fan.caption.aside')] : []),
    ...(begins ? [] : [hidden ? t('fan.caption.hidden', { n: hidden }) : t('fan.caption.later')]),
  ].join(' ');
}

/** The picture in words. @param {Forecast} forecast @param {Units} units @returns {string} */
function inWords({ marks, curve, limit_percent, elongation_now_percent: now, km_to_limit, check_again_in_km }, units) {
  return [
    marks.length ? t('fan.label', { n: marks.length, far: far(curve[0].km, units) }) : t('fan.label.none'),
    t('fan.label.now', { middle: percent(now.p50), low: percent(now.p05), high: percent(now.p95) }),
    km_to_limit.p50 > 0
      ? t('fan.label.limit', { limit: limit_percent, middle: about(km_to_limit.p50, units) })
      : t('fan.label.past', { limit: limit_percent }),
    check_again_in_km > 0 ? t('fan.label.check', { far: within(check_again_in_km, units) }) : t('fan.label.check.now'),
  ].join(' ');
}

/** The numbers behind the picture. @param {Forecast} forecast @param {Units} units */
export function wearTable({ marks, set_aside, curve, limit_percent, earlier_chains }, units) {
  const aside = new Set(set_aside.map(({ index }) => index));
  const unit = t(units === 'imperial' ? 'fan.column.mi' : 'fan.column.km');
  return html`<details class="fold fan-table"><summary>${t('fan.table')}</summary><div class="sheets">
    ${marks.length ? readings(t('fan.readings', { limit: limit_percent }), unit, marks, units, aside) : nothing}
    <table><caption>${t('fan.onward', { limit: limit_percent })}</caption>
      <thead><tr>${[unit, t('fan.column.low'), t('fan.column.middle'), t('fan.column.high')].map(
        (name) => html`<th scope="col" class="number">${name}</th>`,
      )}</tr></thead>
      <tbody>${curve.map(
        ({ km, p05, p50, p95 }) => html`<tr><th scope="row" class="number">${figure(km, units)}</th>
        ${[p05, p50, p95].map((value) => html`<td class="number">${percent(value)}</td>`)}</tr>`,
      )}</tbody></table>
    ${earlier_chains.map((one, i) => readings(t('fan.earlier', { n: i + 1 }), unit, one.marks, units, new Set()))}
  </div></details>`;
}

/**
 * @param {string} caption
 * @param {string} unit
 * @param {import('./geometry.js').Mark[]} marks
 * @param {Units} units
 * @param {Set<number>} aside
 */
function readings(caption, unit, marks, units, aside) {
  const rows = marks.map((mark, i) => ({ ...mark, aside: aside.has(i) })).sort((a, b) => a.at_km - b.at_km);
  const end = (/** @type {number|null} */ value) => (value === null ? t('fan.open') : percent(value));
  return html`<table><caption>${caption}</caption>
    <thead><tr>${[unit, t('fan.column.read'), t('fan.column.from'), t('fan.column.to')].map(
      (name) => html`<th scope="col" class="number">${name}</th>`,
    )}</tr></thead>
    <tbody>${rows.map(
      (row) => html`<tr><th scope="row" class="number">${figure(row.at_km, units)}</th>
      <td class="number">${row.percent === null ? t('fan.gauge') : percent(row.percent)}${row.aside ? html`<br>${t('fan.aside')}` : nothing}</td>
      <td class="number">${end(row.low_percent)}</td><td class="number">${end(row.high_percent)}</td></tr>`,
    )}</tbody></table>`;
}
