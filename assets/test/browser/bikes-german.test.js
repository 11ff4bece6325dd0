import { test } from 'node:test';
import { shed } from './harness/bikes.js';
import { door, programWithDoors } from './harness/doors.js';
import { assertLooks } from './harness/look.js';
import { goTo, newPhone, openAndKeep } from './harness/phone.js';
import { startServer } from './harness/server.js';

/** Each place about a bike, with a German text that stands there once it is drawn. */
const PLACES = {
  bike: 'Verlauf',
  distance: 'Der Zähler zeigt, km',
  care: 'Was gemacht wurde',
  edit: 'Wie es gefahren wird',
  chains: 'Auf dem Rad',
};

test('a shed of bikes speaks German, is accessible in both themes and fits', async (t) => {
  const server = await startServer(t, await programWithDoors());
  const { page } = await newPhone(t, server.origin, { locale: 'de-DE' });
  await openAndKeep(page, '/#/bikes');
  await door(page, 'save', shed());
  await page.locator('.wear-strip').nth(6).waitFor();
  await page.getByText('Wechseln und die Ritzel ansehen').waitFor();
  await assertLooks(page, 'Räder');
  for (const [place, text] of Object.entries(PLACES)) {
    await goTo(page, `/#/${place}/00000001-0000-4000-8000-00000000000b`);
    await page.getByText(text).first().waitFor();
    await assertLooks(page, place);
  }
});
