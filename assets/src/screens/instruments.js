/** My instruments: the list, and one of them. */
import { html, nothing } from 'lit';
import { marksOf, unreadable } from '../data/instruments.js';
import { MARKS } from '../data/lengths.js';
import { mayLead } from '../data/roles.js';
import { choice } from '../parts/choice.js';
import { icon } from '../parts/icons.js';
import { textField } from '../parts/text-field.js';

import { exact, fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { putToolForm, removeTool, saveTool, undoRemove } from './instrument-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../app/kit-state.js').ToolForm} ToolForm
 */

const KINDS = /** @type {const} */ (['rule', 'gauge', 'compare', 'caliper']);
const BEARS = /** @type {const} */ (['same_side', 'opposed_rollers']);

/** @param {State} state */
export function instruments(state) {
  const { garage, tool } = state;
  const all = garage?.instruments ?? [];
  const may = mayLead(garage?.role);
  return {
    body: html`<div class="sheets">
      <h1>${t('tools.title')}</h1>
      <p>${t('tools.text')}</p>
      ${may || !garage ? nothing : html`<p>${t('kit.viewer')}</p>`}
      <div class="flash" role="status">${
        tool.done === 'removed' && tool.removed
          ? html`${t('tool.removed', { name: tool.removed.name })}
        <button class="button" type="button" id="undo" @click=${undoRemove}>${t('tool.undo')}</button>`
          : tool.done === 'saved'
            ? t('tool.saved')
            : nothing
      }</div>
      ${all.length ? html`<ul class="rows">${all.map((row) => line(row, may))}</ul>` : html`<p>${t('tools.none')}</p>`}
    </div>`,
    bench: html`<div class="main-row"><a class="button" href="#/kit">${t('kit.back')}</a>
      ${may ? html`<a class="button main" href="#/instrument/new">${t('tools.add')}</a>` : nothing}</div>`,
  };
}

/** @param {import('../data/garage.js').Row} row @param {boolean} may */
function line({ record_id, fields }, may) {
  const text = html`${icon(fields.kind)}<span><strong>${fields.name}</strong><br><span class="small soft">${about(fields)}</span></span>`;
  return html`<li>${may ? html`<a class="row" href="#/instrument/${record_id}">${text}</a>` : html`<div class="row">${text}</div>`}</li>`;
}

/** @param {Record<string, any>} fields @returns {string} what it is like, in a few words */
function about({ kind, resolution_mm: mm, steps, bias_percent: bias }) {
  return [
    named('instrument', kind),
    ...(mm ? [t('tools.line.marks', { marks: named('marks', marksOf(mm)) })] : []),
    ...(steps ? [t('tools.line.steps', { list: steps.map(exact).join(' · ') })] : []),
    ...(bias ? [t(bias > 0 ? 'tools.line.long' : 'tools.line.short', { percent: fixed(Math.abs(bias), 2) })] : []),
  ].join(', ');
}

/** @param {State} state */
export function instrument(state) {
  const { tool, garage } = state;
  const { form, id, fault } = tool;
  const bad = unreadable(form);
  const ready = form.name.trim() && !bad.length;
  const gone = id && garage && !garage.instruments.some(({ record_id }) => record_id === id);
  if (gone || (garage && !mayLead(garage.role))) return missing(t(gone ? 'tool.gone' : 'kit.viewer'));
  return {
    body: html`<div class="sheets">
      <h1>${t('tool.title')}</h1>
      <div role="alert">${fault ? html`<p class="fault">${fault}</p>` : nothing}</div>
      ${textField({ id: 'tool-name', title: t('tool.name'), text: form.name, type: (name) => putToolForm({ name }) })}
      ${choice({
        name: 'kind',
        title: t('tool.kind'),
        even: true,
        value: form.kind,
        options: KINDS.map((value) => ({ value, text: html`${icon(value)}${named('instrument', value)}` })),
        choose: (kind) => putToolForm({ kind }),
      })}
      ${form.kind === 'gauge' ? gauge(form, bad) : marks(form)}
      ${textField({
        id: 'tool-bias',
        title: t('tool.bias'),
        hint: t('tool.bias.hint'),
        text: form.bias,
        most: 8,
        ...(bad.includes('bias') ? { fault: t('tool.unreadable') } : {}),
        type: (bias) => putToolForm({ bias }),
      })}
      ${id ? html`<button class="button quiet" type="button" @click=${removeTool}>${t('tool.remove')}</button>` : nothing}
    </div>`,
    bench: html`<div class="main-row"><a class="button" href="#/instruments">${t('form.back')}</a>
      <button class="button main" type="button" aria-disabled=${ready ? 'false' : 'true'} @click=${saveTool}>${t(form.name.trim() ? 'tool.save' : 'tool.first')}</button></div>`,
  };
}

/** @param {string} text */
function missing(text) {
  return {
    body: html`<div class="sheets"><h1>${t('tool.title')}</h1><p>${text}</p></div>`,
    bench: html`<a class="button main" href="#/instruments">${t('tools.title')}</a>`,
  };
}

/** @param {ToolForm} form */
function marks({ marks: value }) {
  return choice({
    name: 'tool-marks',
    title: t('tool.marks'),
    value,
    options: /** @type {import('../data/lengths.js').MarkName[]} */ (Object.keys(MARKS)).map((one) => ({
      value: one,
      text: named('marks', one),
    })),
    choose: (chosen) => putToolForm({ marks: chosen }),
  });
}

/** @param {ToolForm} form @param {string[]} bad */
function gauge({ steps, bears_on }, bad) {
  return html`${textField({
    id: 'tool-steps',
    title: t('tool.steps'),
    hint: t('tool.steps.hint'),
    text: steps,
    ...(bad.includes('steps') ? { fault: t('tool.unreadable') } : {}),
    type: (text) => putToolForm({ steps: text }),
  })}
  ${choice({
    name: 'tool-bears',
    title: t('tool.bears'),
    value: bears_on,
    options: BEARS.map((value) => ({ value, text: named('gauge', value) })),
    choose: (value) => putToolForm({ bears_on: value }),
  })}`;
}
