/** The frame to print and cut out. */
import { html } from 'lit';
import { LINE_MM } from '../data/photo.js';
import { photoFrame } from '../parts/photo-frame/photo-frame.js';
import { list, t } from '../words/t.js';

export function frame() {
  return {
    body: html`<div class="sheets photo-print">
      <div class="screen-only sheets"><h1>${t('photo.frame')}</h1>
        <ol class="photo-how sheet">${list('photo.frame', { mm: LINE_MM }).map((text) => html`<li>${text}</li>`)}</ol></div>
      ${photoFrame(t('photo.frame.picture', { mm: LINE_MM }))}
    </div>`,
    bench: html`<div class="main-row"><a class="button" href="#/photo">${t('photo.frame.back')}</a>
      <button class="button main" type="button" @click=${() => print()}>${t('photo.frame.print')}</button></div>`,
  };
}
