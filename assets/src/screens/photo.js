/** A photograph: the print's check line, the picture, what was found in it, and the rider's word for it. */
import { html, nothing } from 'lit';
import { READINGS, THICK, checkLine, known } from '../data/photo.js';
import { choice } from '../parts/choice.js';
import { photoStrips } from '../parts/photo-strips/photo-strips.js';
import { inWords } from '../words/engine.js';
import { exact, fixed } from '../words/numbers.js';
import { list, named, t } from '../words/t.js';
import { dropPicture, keepAndPut, putPhoto, takePicture, turnPhoto, typeReading, usePicture } from './photo-actions.js';
import { proof } from './photo-kit.js';

/**
 * @typedef {import('./photo-actions.js').Photo} Photo
 * @typedef {import('./photo-actions.js').PhotoAnswer} PhotoAnswer
 */

/** @param {import('../app/store.js').State} state */
export function photo({ photo: now }) {
  const line = checkLine(now.readings);
  if (!now.on) return off();
  if (now.answer) return { body: frame(found(now, now.answer)), bench: afterwards(now, now.answer) };
  return {
    body: frame(html`
      ${now.fault ? html`<p class="notice" role="alert" id="photo-result" tabindex="-1">${now.fault}</p>` : nothing}
      ${now.kept === 'no' ? html`<p class="notice">${t('photo.kept.no')}</p>` : nothing}
      ${reference(now)}
      ${now.reference === 'rule' ? rule(now) : print(now, line)}
      <section class="sheet"><h2>${t('photo.how')}</h2>
        <ol class="photo-how">${how(now).map((text) => html`<li>${text}</li>`)}</ol></section>`),
    bench: now.busy ? busy() : pickers(now),
  };
}

function off() {
  return {
    body: frame(html`<p>${t('photo.kit')}</p>`),
    bench: html`<button class="button main" type="button" @click=${() => turnPhoto(true)}>${t('photo.on')}</button>`,
  };
}

/** @param {unknown} content */
function frame(content) {
  return html`<div class="sheets photo"><h1>${t('photo.title')}</h1>${proof()}${content}</div>`;
}

/** @param {Photo} now */
function reference({ reference: value }) {
  return choice({
    ...{ name: 'reference', title: t('photo.reference'), even: true, value },
    options: /** @type {const} */ (['frame', 'rule']).map((one) => ({
      value: one,
      text: named('photo.reference', one),
    })),
    choose: (one) => keepAndPut({ reference: one }),
  });
}

/** @param {Photo} now a steel rule beside the rivets */
function rule(now) {
  return html`<section class="sheet"><h2>${t('photo.reference.rule')}</h2>
    <p>${t('photo.rule.text')}</p>
    ${thickness(now)}</section>`;
}

/** @param {Photo} now */
function thickness({ reference: of, thick }) {
  return choice({
    ...{ name: 'thick', title: named('photo.thick', of), even: true, value: thick[of] },
    options: THICK[of].map((one) => ({ value: one, text: exact(Number(one)) })),
    choose: (one) => keepAndPut({ thick: { ...thick, [of]: one } }),
  });
}

/** @param {Photo} now @returns {unknown[]} */
function how({ reference: one }) {
  const [clean, lay, hold, light] = list('photo.how', {});
  return one === 'rule' ? [clean, t('photo.rule.lay'), t('photo.rule.hold'), light] : [clean, lay, hold, light];
}

/** @param {Photo} now @param {import('../data/photo.js').Line} line the print and its check line */
function print(now, line) {
  return html`<section class="sheet"><h2>${t('photo.print')}</h2>
    <p>${t('photo.print.text')}</p>
    ${line.status === 'ok' ? html`<a class="button quiet" href="#/frame">${t('photo.print.open')}</a>` : nothing}
    <fieldset class="pick"><legend class="label">${t('photo.line')}</legend>
      <div class="photo-line">${Array.from(
        { length: READINGS },
        (_, i) => html`<input class="line-input number" inputmode="decimal" autocomplete="off" maxlength="12"
          aria-label=${t('photo.line.n', { n: i + 1 })} .value=${now.readings[i]}
          @input=${(/** @type {any} */ event) => typeReading(i, event.target.value)}>`,
      )}</div></fieldset>
    <p role="status" class=${line.status === 'ok' || line.status === 'none' ? '' : 'fault'}>${
      line.status === 'ok'
        ? t('photo.line.ok', { mm: fixed(line.mm, 2), u: fixed(line.standard_uncertainty, 2) })
        : named('photo.line', line.status)
    }</p>
    ${thickness(now)}</section>`;
}

/** @param {Photo} now */
function pickers(now) {
  if (!known(now) && (now.reference === 'rule' || checkLine(now.readings).status === 'ok'))
    return html`<p class="soft">${t('photo.thick.first')}</p>`;
  if (!known(now))
    return html`<p class="soft">${t('photo.first')}</p><a class="button main" href="#/frame">${t('photo.print.open')}</a>`;
  const input = (/** @type {boolean} */ camera) =>
    html`<input type="file" accept="image/jpeg,image/png" capture=${camera ? 'environment' : nothing} @change=${takePicture}>`;
  return html`<div class="main-row">
    <label class="button file">${t('photo.choose')}${input(false)}</label>
    <label class="button main file">${t('photo.take')}${input(true)}</label></div>`;
}

function busy() {
  return html`<label class="label" for="photo-busy">${t('photo.busy')}</label><progress id="photo-busy"></progress>`;
}

/** @param {Photo} now @param {PhotoAnswer} answer */
function found(now, answer) {
  const { distance_mm: far, tilt_degrees: tilt, overlay } = answer;
  const seen = { n: overlay.rivets.length, clear: overlay.rivets.filter(({ clear }) => clear).length };
  return html`<section class="sheet" id="photo-result" tabindex="-1" aria-label=${t('photo.found')}>
    <h2>${t(answer.accepted ? 'photo.found' : 'photo.refused')}</h2>
    ${answer.refusals.map(({ code, text }) => html`<p class="photo-refusal">${inWords({ code: `photo_${code}`, values: {} }, text)}</p>`)}
    ${now.picture ? photoStrips(now.picture, overlay, t('photo.picture', seen)) : nothing}
    ${answer.accepted ? html`<p class="soft">${t('photo.where', { far: exact(Math.round(Number(far) / 10)), tilt: fixed(Number(tilt), 0) })}</p>` : nothing}
    ${answer.accepted ? confirms(now, answer) : nothing}</section>`;
}

/** @param {Photo} now @param {PhotoAnswer} answer what no picture can show */
function confirms({ seen, taut, flat, reference: lay }, { rivets }) {
  const one = (/** @type {string} */ name, /** @type {boolean} */ value, /** @type {string} */ text) =>
    html`<li><label class="tick">
    <input type="checkbox" .checked=${value} @change=${(/** @type {any} */ event) => putPhoto({ [name]: event.target.checked })}>
    <span>${text}</span></label></li>`;
  return html`<ul class="ticks">${one('seen', seen, t('photo.seen', { n: rivets }))}
    ${one('taut', taut, t('photo.taut'))}${one('flat', flat, named('photo.flat', lay))}</ul>`;
}

/** @param {Photo} now @param {PhotoAnswer} answer */
function afterwards({ seen, taut, flat }, { accepted }) {
  const again = html`<button class="button ${accepted ? '' : 'main'}" type="button" @click=${dropPicture}>${t('photo.other')}</button>`;
  if (!accepted) return again;
  const ready = seen && taut && flat;
  return html`<div class="main-row">${again}
    <button class="button main" type="button" aria-disabled=${ready ? 'false' : 'true'} @click=${usePicture}>${t(ready ? 'photo.use' : 'photo.confirm')}</button></div>`;
}
