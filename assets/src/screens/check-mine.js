/** Which of the rider's own instruments is used: its marks and its known bias come with it. */
import { html, nothing } from 'lit';
import { now } from '../app/store.js';
import { ofKind, used, withMine } from '../data/instruments.js';
import { choice } from '../parts/choice.js';
import { t } from '../words/t.js';
import { change, changeAndEmpty } from './check-actions.js';

/** Stands for none of them. */
const OTHER = '';

/** @param {Pick<import('../app/store.js').State, 'draft'|'garage'>} state a choice, where there is one of this kind */
export function mine({ draft, garage }) {
  const all = ofKind(garage?.instruments ?? [], draft.instrument);
  if (!all.length) return nothing;
  return html`${choice({
    name: 'mine',
    title: t('tool.mine'),
    value: used(draft)?.id ?? OTHER,
    options: [
      ...all.map(({ record_id, fields }) => ({ value: record_id, text: fields.name })),
      { value: OTHER, text: t('tool.other') },
    ],
    choose,
  })}`;
}

/** @param {string} id */
function choose(id) {
  const { draft, garage } = now();
  const row = garage?.instruments.find(({ record_id }) => record_id === id);
  const next = withMine(draft, row ?? null);
  // Another gauge has other ends: what the first one said is not its answer.
  if (draft.instrument === 'gauge' && row) changeAndEmpty(next);
  else change(next);
}
