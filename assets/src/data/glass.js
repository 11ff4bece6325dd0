/**
 * The phone's screen as a rule: how many px of the page make a millimetre, found
 * once against something of known length, and a span of chain read on it.
 *
 * Budget (JCGM 100:2008). A mark is set under a pin or beside a line of a rule
 * with one eye straight over it, its own reflection in the dark glass being the
 * plumb line. What is left at each end is sighting and parallax: an eye
 * off by e at the height h sees something z above the lit layer displaced by
 * z·e/h. The eye offset, the heights and the sighting are common practice, no
 * source; the resulting sizes are held against a simulation in glass.test.js.
 */

/** Standard uncertainties and heights, mm. */
const SIGHT_MM = 0.05;
const EYE_OFF_MM = 3;
const EYE_HEIGHT_MM = 300;
const PIN_ABOVE_MM = 7;
const RULE_ABOVE_MM = 1.5;

/** Half-width of what a plain steel rule may be off over the span, mm (common practice, no source). */
const RULE_ACCURACY_MM = 0.05;

/** Width of a card of ISO/IEC 7810 size ID-1 and half of its tolerance, mm: 85.47 to 85.72. */
export const CARD_MM = 85.6;
const CARD_TOLERANCE_MM = 0.125;

/** How often the mark is set: against a rule or card, and on the chain. */
export const SETTINGS = 4;
export const SPANS = 5;

/** Settings that differ by more than this many times what is expected are not averaged but made again. */
const TOO_WILD = 3;

/** What a page can show is between these, px per mm: a wall and a magnifier lie outside. */
const PLAUSIBLE = { lo: 1.5, hi: 20 };

/**
 * @typedef {{ratio: number, zoom: number, width: number, height: number, page?: number, upright: boolean}} Display
 *   device px per px, pinch zoom, the screen's shorter and longer side in px, the page's width in px (some browsers
 *   zoom a page and change nothing else that can be asked), which way it is held
 * @typedef {'rule'|'card'} Against
 * @typedef {{px_per_mm: number, standard_uncertainty: number, against: Against, settings: number[],
 *   display: Display, at: string}} Calibration settings: mm per setting's px, as set, in px
 * @typedef {{px: number, standard_uncertainty: number}} Span mean and its standard uncertainty, px
 */

/** @param {number} above mm over the lit layer @param {number} ratio device px per px @param {number} pxPerMM */
function setting(above, ratio, pxPerMM) {
  const parallax = (above * EYE_OFF_MM) / EYE_HEIGHT_MM;
  const step = 1 / (ratio * pxPerMM);
  return Math.sqrt(2 * (SIGHT_MM ** 2 + parallax ** 2) + step ** 2 / 12);
}

/**
 * Mean of equal settings, with the larger of what is expected of one and what
 * they show: few settings can agree by luck, which makes none of them better.
 * @param {number[]} values px
 * @param {number} expected standard uncertainty of one, px
 * @returns {Span|null} null when they differ too much to be settings of one length
 */
function mean(values, expected) {
  const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
  const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
  if (spread > TOO_WILD * expected) return null;
  return { px: middle, standard_uncertainty: Math.max(expected, spread) / Math.sqrt(values.length) };
}

/**
 * @param {Against} against
 * @param {number} mm length of what lay on the glass
 * @param {number[]} settings px, SETTINGS of them
 * @param {Display} display
 * @param {string} at time
 * @returns {Calibration|'wild'|'implausible'} why there is none
 */
export function calibrated(against, mm, settings, display, at) {
  const guess = settings.reduce((sum, px) => sum + px, 0) / settings.length / mm;
  if (!(guess >= PLAUSIBLE.lo && guess <= PLAUSIBLE.hi)) return 'implausible';
  const span = mean(settings, setting(RULE_ABOVE_MM, display.ratio, guess) * guess);
  if (!span) return 'wild';
  const half = against === 'card' ? CARD_TOLERANCE_MM : RULE_ACCURACY_MM;
  const relative = Math.hypot(span.standard_uncertainty / span.px, half / Math.sqrt(3) / mm);
  const px_per_mm = span.px / mm;
  return { px_per_mm, standard_uncertainty: px_per_mm * relative, against, settings, display, at };
}

/**
 * @param {number[]} spans px, SPANS of them
 * @param {Calibration} calibration
 * @returns {Span|null} null when they differ too much
 */
export function measured(spans, { px_per_mm, display }) {
  return mean(spans, setting(PIN_ABOVE_MM, display.ratio, px_per_mm) * px_per_mm);
}

/**
 * A calibration holds for the display it was made on and nothing else: another
 * ratio, zoom, size or way of holding it may change the px, and is refused.
 * @param {Calibration|null} calibration
 * @param {Display} display
 * @returns {'none'|'changed'|'zoomed'|'ok'}
 */
export function standing(calibration, display) {
  if (display.zoom !== 1) return 'zoomed';
  if (!calibration) return 'none';
  const { ratio, width, height, page = display.page, upright } = calibration.display;
  const whole = ratio === display.ratio && width === display.width && height === display.height;
  const same = whole && page === display.page && upright === display.upright;
  return same ? 'ok' : 'changed';
}

/**
 * @param {number} room px along the chain
 * @param {number} pxPerMM
 * @param {number} pitch mm
 * @returns {number} the most pitches, an even number, of which the end mark can still move to 3 %
 */
export function fitting(room, pxPerMM, pitch) {
  return 2 * Math.floor(room / pxPerMM / (pitch * 1.03) / 2);
}

/**
 * @param {number} room px along the rule
 * @param {number} pxPerMM a guess
 * @param {number} step mm from one length to the next
 * @returns {number} the longest round length with room to spare, mm
 */
export function roundLength(room, pxPerMM, step) {
  return step * Math.floor(((room / pxPerMM) * 0.97) / step);
}
