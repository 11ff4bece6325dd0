/** Fitting a chain step by step, with checks at the end; what is ticked stays ticked. */
import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import { choice } from './choice.js';
import { list, named, t } from '../words/t.js';

/** Ways to join, by what the chain runs in. */
const CLOSURES = {
  derailleur: ['reusable_joining_link', 'one_use_joining_link', 'one_use_pin'],
  fixed: ['spring_clip_joining_link', 'reusable_joining_link', 'one_use_joining_link', 'one_use_pin'],
};

const CHECKS = {
  derailleur: ['closed', 'stiff', 'large', 'small', 'fingers', 'skip', 'again'],
  fixed: ['closed', 'stiff', 'tight', 'line', 'fingers', 'skip', 'again'],
};

/** Where joining and cutting come in: before this step of the list. */
const CUT_AFTER = { derailleur: 4, fixed: 2 };
const CLOSE_AFTER = { derailleur: 4, fixed: 3 };

/**
 * @typedef {'derailleur'|'fixed'} Kind what the chain runs in
 * @typedef {{closure: string, done: string[]}} Steps how it will be closed, and the steps ticked off
 * @typedef {{kind: Kind, n: number|null, half: boolean, closure: string, done: () => string[],
 *   put: (part: Partial<Steps>) => void}} Model n: pitches of the finished chain, null while not known; half: it has
 *   a half link; done: by now, since two quick touches come before one drawing
 */

/** @param {Model} model */
export function fittingSteps({ kind, n, half, closure, done, put }) {
  const closed = CLOSURES[kind].includes(closure) ? closure : '';
  const work = tasks(kind, n, half, closed);
  const checks = CHECKS[kind].map(
    (code) => /** @type {[string, string]} */ ([`check.${code}`, named('steps.check', code)]),
  );
  const all = [...work, ...checks];
  const count = all.filter(([key]) => done().includes(key)).length;
  return html`<section class="sheet"><h2>${t('steps.title')}</h2>
    ${choice({
      name: 'closure',
      title: t('steps.closure'),
      value: closed || null,
      options: CLOSURES[kind].map((value) => ({ value, text: named('closure', value) })),
      choose: (value) => put({ closure: value }),
    })}
    <p class="number" role="status">${t('steps.count', { done: count, all: all.length })}</p>
    <ol class="ticks">${work.map((task) => tick(task, done, put))}</ol>
    <h3>${t('steps.check')}</h3>
    <ul class="ticks">${checks.map((task) => tick(task, done, put))}</ul>
    ${count ? html`<button class="button quiet" type="button" @click=${() => put({ done: [] })}>${t('steps.again')}</button>` : nothing}
  </section>`;
}

/**
 * @param {Kind} kind
 * @param {number|null} n
 * @param {boolean} half
 * @param {string} closure
 * @returns {[key: string, text: string][]}
 */
function tasks(kind, n, half, closure) {
  return list(`steps.${kind}`, { n: n ?? t('steps.open') }).flatMap((text, i) => {
    /** @type {[string, string][]} */
    const here = [[`${kind}.${i + 1}`, text]];
    if (i + 1 === CUT_AFTER[kind]) here.push(['cut', t(closure === 'one_use_pin' ? 'steps.cut.pin' : 'steps.cut')]);
    if (i + 1 === CUT_AFTER[kind] && half) here.push(['half', t('steps.half')]);
    if (i + 1 === CLOSE_AFTER[kind]) here.push(['close', named('steps.close', closure || 'any')]);
    return here;
  });
}

/** @param {[string, string]} task @param {Model['done']} done @param {Model['put']} put */
function tick([key, text], done, put) {
  const tell = (/** @type {boolean} */ on) => {
    const others = done().filter((one) => one !== key);
    put({ done: on ? [...others, key] : others });
  };
  return html`<li><label class="tick"><input type="checkbox" .checked=${live(done().includes(key))}
    @change=${(/** @type {any} */ event) => tell(event.target.checked)}><span>${text}</span></label></li>`;
}
