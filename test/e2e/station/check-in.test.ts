/** A hunter's own check-in on one tablet, over TLS, becomes a ticket at the counter on another. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openStationShop, pairStation, type StationShop } from './station-shop.ts';

/** What the shop's staff may take, from the first press to the ticket, ms. */
const MOST = 20_000;
/** Between two presses of a hand that knows where they are, ms. Our choice, no source. */
const HAND = 700;
const TERMS = 'Pick up within 5 days of our call.';

let shop: StationShop;
let tablet: Page;
let counter: Page;
beforeAll(async () => {
  shop = await openStationShop();
  await shop.call('shop.saveSettings', { changes: { dropOffTerms: TERMS } });
  const open = async (name: string) => {
    const device = await shop.device(name, { hasTouch: true });
    const page = device.pages()[0] ?? (await device.newPage());
    page.setDefaultTimeout(15_000);
    return page;
  };
  tablet = await open('hunters');
  await pairStation(shop, tablet, 'Check-in', 'hunter');
  counter = await open('counter');
  await pairStation(shop, counter, 'Counter 1', 'counter');
  await counter.getByRole('dialog').getByRole('button', { name: 'MK' }).tap();
});
afterAll(() => shop.end());

const pick = (page: Page, label: string) =>
  page.locator('main label', { hasText: label }).filter({ visible: true }).first().tap();

it('takes a hunter through it in Spanish', async () => {
  await tablet.getByRole('button', { name: 'Español (México)' }).tap();
  await tablet.getByLabel('Nombre', { exact: true }).fill('Rosa Vega');
  await tablet.getByLabel('Teléfono').fill('307 555 0142');
  await tablet.getByLabel('Licencia de caza').fill('WY-77');
  const next = () => tablet.getByRole('button', { name: 'Siguiente' }).tap();
  await next();
  await next();
  await tablet.getByText('Elija su animal.').waitFor();
  await pick(tablet, 'Venado bura');
  await pick(tablet, 'Hembra');
  await tablet.getByLabel('Número de etiqueta de caza o permiso').fill('T-4711');
  await pick(tablet, 'Ayer');
  await tablet.getByLabel('¿Dónde?').fill('Zona 7');
  await next();
  await pick(tablet, 'Como acostumbra el taller');
  await next();
  await tablet.getByText(TERMS).waitFor();
  const pad = await tablet.getByRole('img', { name: 'Su firma' }).boundingBox();
  if (!pad) throw new Error('no box to sign in');
  await tablet.mouse.move(pad.x + 60, pad.y + 60);
  await tablet.mouse.down();
  for (let i = 1; i < 20; i += 1) await tablet.mouse.move(pad.x + 60 + i * 20, pad.y + 60 + (i % 3) * 20);
  await tablet.mouse.up();
  await tablet.getByRole('button', { name: 'Entregar el animal en el mostrador' }).tap();
  await tablet.getByText('Gracias, Rosa Vega').waitFor();
  expect(await shop.call('drafts.list', {})).toMatchObject([
    {
      name: 'Rosa Vega',
      language: 'es-MX',
      species: 'mule-deer',
      sex: 'female',
      tag: 'T-4711',
      signed: true,
    },
  ]);
});

it('leaves nothing of the hunter on the screen or in the browser', async () => {
  await tablet.getByText('Choose your language').waitFor({ timeout: 25_000 });
  expect(await tablet.content()).not.toMatch(/Rosa|Vega|4711|0142|WY-77/);
  await tablet.getByRole('button', { name: 'English (United States)' }).tap();
  expect(await tablet.getByLabel('Name', { exact: true }).inputValue()).toBe('');
  const stored = await tablet.evaluate(async () => {
    const found: unknown[] = [{ ...localStorage }, { ...sessionStorage }];
    for (const { name = '' } of await indexedDB.databases()) {
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const asked = indexedDB.open(name);
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error ?? new Error(name));
      });
      for (const store of db.objectStoreNames)
        found.push(
          await new Promise((resolve) => {
            const asked = db.transaction(store).objectStore(store).getAll();
            asked.onsuccess = () => resolve(asked.result);
          }),
        );
      db.close();
    }
    return JSON.stringify(found);
  });
  expect(stored).toContain('Check-in');
  expect(stored).not.toMatch(/Rosa|4711|WY-77/);
}, 60_000);

it('becomes a ticket at the counter within 20 seconds of a hand', async () => {
  const row = counter.getByRole('button', { name: /Rosa Vega, Mule deer · Tag T-4711/ });
  await row.waitFor();
  const begun = Date.now();
  let presses = 0;
  const hand = async (press: () => Promise<unknown>) => {
    presses += 1;
    await new Promise((resolve) => setTimeout(resolve, HAND));
    await press();
  };
  await hand(() => row.tap());
  await counter.getByText('Tag T-4711').waitFor();
  await hand(() => pick(counter, 'Skinned'));
  const keys = counter.getByRole('group', { name: 'Number keys' });
  for (const digit of '96') await hand(() => keys.getByRole('button', { name: digit, exact: true }).tap());
  await hand(() => counter.getByRole('button', { name: 'Check in' }).first().tap());
  await counter.getByText('Write this ticket on the tag').waitFor();
  const took = Date.now() - begun;
  console.info(`${presses} presses, ${(took / 1000).toFixed(1)} s`);
  expect(took).toBeLessThan(MOST);

  const [found] = await shop.call('animals.find', { text: 'Rosa' });
  const animal = await shop.call('animals.get', { id: found?.id ?? 0 });
  expect(animal).toMatchObject({
    hunter: { name: 'Rosa Vega', phone: '307 555 0142', licence: 'WY-77', language: 'es-MX' },
    species: { code: 'mule-deer' }, sex: 'female', tag: 'T-4711', killArea: 'Zona 7',
  }); // prettier-ignore
  expect(await shop.call('drafts.list', {})).toEqual([]);
  await counter.getByRole('button', { name: 'Next animal' }).tap();
  await expect.poll(() => counter.getByText('Waiting at check-in').count()).toBe(0);
}, 60_000);
