import assert from 'node:assert/strict';
import { test } from 'node:test';
import { goTo, newPhone } from './harness/phone.js';
import { startServer } from './harness/server.js';

// What Content Security Policy Level 3 (W3C) calls a violation, tried for real.
/** What the policy must refuse. */
const REFUSED = ['script-src-elem', 'script-src-attr', 'style-src-attr', 'img-src', 'connect-src', 'frame-src'];

test('the page runs no inline script or style, no eval, and talks to nobody else', async (t) => {
  const server = await startServer(t);
  const phone = await newPhone(t, server.origin);
  await goTo(phone.page, '/');
  await phone.page.getByText('Ready for offline').waitFor(); // nothing is still being fetched when the server stops
  const blocked = await phone.page.evaluate(async (wanted) => {
    /** @type {string[]} */
    const seen = [];
    addEventListener('securitypolicyviolation', (event) => seen.push(event.effectiveDirective));
    const script = document.createElement('script');
    script.textContent = 'document.title = "inline"';
    const handler = document.createElement('p');
    handler.setAttribute('onclick', '1');
    const style = document.createElement('p');
    style.setAttribute('style', 'color: red');
    const image = new Image();
    image.src = 'data:image/gif;base64,R0lGODlhAQABAAAAACw=';
    const frame = document.createElement('iframe');
    frame.src = '/healthz';
    document.body.append(script, handler, style, image, frame);
    await fetch('http://127.0.0.2/').catch(() => {});
    const evaluated = document.createElement('script');
    evaluated.src = 'data:text/javascript,1';
    document.body.append(evaluated);
    handler.click();
    const until = Date.now() + 60_000;
    while (wanted.some((one) => !seen.includes(one)) && Date.now() < until)
      await new Promise((soon) => setTimeout(soon, 20));
    return { seen, title: document.title, colour: style.style.color };
  }, REFUSED);
  for (const directive of REFUSED) {
    assert.ok(blocked.seen.includes(directive), `${directive} in ${blocked.seen}`);
  }
  assert.notEqual(blocked.title, 'inline');
  assert.equal(blocked.colour, '');
  phone.problems.length = 0; // every one of them was meant
});

test('every kind of answer carries its safety headers', async (t) => {
  const { origin } = await startServer(t);
  for (const path of ['/', '/sw.js', '/missing.js', '/api/v1/openapi.json', '/api/v1/missing', '/healthz']) {
    const { headers } = await fetch(origin + path);
    assert.equal(headers.get('x-content-type-options'), 'nosniff', path);
    assert.equal(headers.get('referrer-policy'), 'no-referrer', path);
  }
});
