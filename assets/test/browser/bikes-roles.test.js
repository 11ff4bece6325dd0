import assert from 'node:assert/strict';
import { test } from 'node:test';
import { chip, fact, readBike } from './harness/bikes.js';
import { door, garage, until } from './harness/doors.js';
import { assertLooks } from './harness/look.js';
import { becomes } from './harness/patience.js';
import { arrived, goTo, type } from './harness/phone.js';
import { agreed, joinBy, phone, server } from './harness/shared.js';

const BIKE = { fields: { name: 'Loaner 1', rear_sprockets: 9, tag: 'K-01' }, km: 900, wear: [0.2, 0.3] };

/** A garage with one bike, its owner's phone and another's. @param {any} t @param {string} role */
async function garageFor(t, role) {
  const at = await server(t);
  const [owner, other] = [await phone(t, at), await phone(t, at)];
  await door(owner.page, 'save', readBike(1, BIKE));
  await door(owner.page, 'startSharing', 'Canal riders', 'Ada');
  await joinBy(owner, other, role);
  await until(other.page, ({ bikes }) => bikes.length === 1);
  await other.tap('Bikes', 'link');
  return { owner, other };
}

test('a viewer sees all of a bike and can change nothing', async (t) => {
  const {
    other: { page, tap },
  } = await garageFor(t, 'viewer');
  await page.getByText('You look at this garage; you cannot change it.').waitFor();
  assert.equal(await page.getByRole('link', { name: 'Add a bike' }).count(), 0);
  await assertLooks(page, 'Bikes, viewer');
  await page.getByRole('link', { name: /Loaner 1/ }).tap();
  await page.getByRole('img', { name: /Elongation over distance/ }).waitFor();
  for (const name of ['Distance', 'Care', 'Take a reading', 'Change the chain']) {
    assert.equal(await page.getByRole('link', { name, exact: true }).count(), 0, name);
  }
  assert.equal(await page.locator('.log summary').count(), 0);
  await assertLooks(page, 'a bike, viewer');
  await tap('Everything about this bike', 'link');
  await page.getByText('Only leaders change this.').waitFor();
  await page.locator('#edit-name').fill('Mine');
  await becomes(() => page.getByRole('button', { name: 'Save' }).getAttribute('aria-disabled'), 'true');
  await tap('Back', 'link');
  await tap('Chains', 'link');
  await page.getByText('has run 900 km').waitFor();
  assert.equal(await page.getByRole('button').count(), 0);
  await goTo(page, '/#/add');
  await page.locator('#bike-name').fill('Mine');
  const add = page.getByRole('button', { name: 'First a name' });
  await becomes(() => add.getAttribute('aria-disabled'), 'true');
});

test('a checker notes distance and care, which the owner sees at once, and changes no bike', async (t) => {
  const { owner, other } = await garageFor(t, 'checker');
  const { page, tap } = other;
  const [{ bike_id: bike }] = (await garage(page)).bikes;
  await page.getByText('You add readings, distance and care here').waitFor();
  await page.getByRole('link', { name: /Loaner 1/ }).tap();
  await tap('Take a reading', 'link');
  await arrived(page, `#/check/${bike}`);
  await page.goBack();
  await arrived(page, `#/bike/${bike}`);
  await owner.tap('Bikes', 'link');
  await owner.page.getByRole('link', { name: /Loaner 1/ }).tap();
  await fact(owner.page, 'The bike has gone', '900 km');
  await tap('Distance', 'link');
  await type(page, 'Odometer shows, km', '950');
  assert.equal(await chip(page, 'By the week').count(), 0);
  await page.getByRole('button', { name: 'Note 950 km' }).tap();
  await fact(page, 'The bike has gone', '950 km');
  await fact(owner.page, 'The bike has gone', '950 km');
  await tap('Undo');
  await fact(page, 'The bike has gone', '900 km');
  await fact(owner.page, 'The bike has gone', '900 km');
  assert.equal(await page.getByRole('button', { name: 'Remove this entry' }).count(), 0);
  await until(page, agreed);
});
