/** Lists that a shop adds to have a most: one more is refused in words, and what is there can still be changed. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { CallInput, CallName } from '../../../src/bridge/contract.ts';
import { MAX_OF_ANIMAL, MAX_OF_SHOP } from '../../../src/desk/session/list-limits.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { problemMessage } from '../../../src/ui/texts/problem-message.ts';
import { deskOn, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { TRIED } from '../tried-writes.ts';

const AT = '2026-10-10T15:00:00.000Z';
const NUMBERS = 'WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < @most)';

/** A shop whose list is as good as full: `sql` adds one row for each number `n.i` up to a count. */
async function full(sql: string, most: number): Promise<{ shop: FreshDesk; animalId: number }> {
  const before = await freshDesk();
  const animalId = await takeIn(before);
  await before.call('animals.setStage', {
    id: animalId,
    stage: 'ready',
    answer: 'weighed again',
    confirmed: true,
  });
  before.desk.close();
  const db = new Database(before.bookPath);
  db.prepare(`INSERT INTO ${sql.replace('$rows', NUMBERS)}`).run({ most });
  db.close();
  return { shop: await deskOn(before.bookPath), animalId };
}

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });

async function expectFull(shop: FreshDesk, call: CallName, input: unknown, code: string, count: number) {
  const problem = await shop.problem(call, input);
  expect(problem).toMatchObject({ kind: 'refused', code, with: { count } });
  const said = problemMessage(problem, format);
  expect(said).toContain(format.number(count));
  expect(said).not.toContain(code);
  expect(said).not.toContain('undefined');
  expect(shop.broken).toEqual([]);
  shop.desk.close();
}

describe('one animal', () => {
  it('is put on hold a bounded number of times', async () => {
    const { shop, animalId } = await full(
      `hold (animal_id, reason, sample, at, by) $rows SELECT 1, 'smells', '', '${AT}', '' FROM n`,
      MAX_OF_ANIMAL.hold.most - 1,
    );
    await shop.call('animals.hold', { id: animalId, reason: 'smells' });
    await expectFull(shop, 'animals.hold', { id: animalId, reason: 'smells' }, 'hold.too-many', 100);
  });

  it('has a bounded number of test results', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, { sample: 'L1' });
    const result = { id, holdId: 1, reason: 'read again' } as const;
    for (let n = 0; n < MAX_OF_ANIMAL.result.most; n++)
      await shop.call('animals.testResult', { ...result, result: n % 2 === 0 ? 'positive' : 'not detected' });
    await expectFull(shop, 'animals.testResult', { ...result, result: 'positive' }, 'result.too-many', 200);
  }, 60_000);

  it('has a bounded number of notes', async () => {
    const { shop, animalId } = await full(
      `call_note (animal_id, text, at, by) $rows SELECT 1, 'no answer', '${AT}', '' FROM n`,
      MAX_OF_ANIMAL.note.most - 1,
    );
    await shop.call('pickup.saveNote', { id: animalId, text: 'left a message' });
    await expectFull(shop, 'pickup.saveNote', { id: animalId, text: 'no answer' }, 'note.too-many', 200);
  });

  it('has its instructions changed a bounded number of times', async () => {
    const shop = await freshDesk();
    const ready = await TRIED['animals.saveOrders']?.(shop);
    const input = ready?.[1] as CallInput<'animals.saveOrders'>;
    for (let n = 0; n < MAX_OF_ANIMAL.instructions.most; n++) await shop.call('animals.saveOrders', input);
    await expectFull(shop, 'animals.saveOrders', input, 'orders.too-many', 200);
  }, 60_000);
});

describe('a shop', () => {
  it('has a bounded number of people, whose names can still be changed', async () => {
    const { shop } = await full(
      `staff (initials, name) $rows SELECT 'S' || n.i, 'Robin' FROM n`,
      MAX_OF_SHOP.staff.most - 1,
    );
    await shop.call('shop.addStaff', { initials: 'RO', name: 'Robin' });
    await shop.call('shop.addStaff', { initials: 'RO', name: 'Robin Oak' });
    await expectFull(shop, 'shop.addStaff', { initials: 'EH', name: 'Eli' }, 'staff.too-many', 200);
  });

  it('has a bounded number of coolers, and room again once one is put away', async () => {
    const { shop } = await full(
      `cooler (name, places) $rows SELECT 'Room ' || n.i, 9 FROM n`,
      MAX_OF_SHOP.cooler.most - 1,
    );
    const { id } = await shop.call('coolers.save', { name: 'Cold room', places: 9 });
    await shop.call('coolers.save', { id, name: 'Cold room', places: 12 });
    await shop.problem('coolers.save', { name: 'One more', places: 9 });
    await shop.call('coolers.archive', { id });
    await shop.call('coolers.save', { name: 'One more', places: 9 });
    await expectFull(shop, 'coolers.save', { name: 'Another', places: 9 }, 'cooler.too-many', 100);
  });

  it('has a bounded number of lots of bought fat on hand, and room again once one is thrown out', async () => {
    const shop = await freshDesk();
    const lot = { source: 'pork-back-fat', typed: '20' };
    let id = 0;
    for (let n = 0; n < MAX_OF_SHOP.fat.most; n++) ({ id } = await shop.call('fat.receive', lot));
    await shop.problem('fat.receive', lot);
    await shop.call('fat.discard', { lotId: id, reason: 'rancid' });
    await shop.call('fat.receive', lot);
    await expectFull(shop, 'fat.receive', lot, 'fat.too-many', 200);
  }, 60_000);

  it('has a bounded number of kinds of game', async () => {
    const first = await freshDesk();
    const [, wish] = (await TRIED['species.save']?.(first)) as ['species.save', CallInput<'species.save'>];
    await first.call('species.save', { ...wish, name: 'Sika deer' });
    const { species } = await first.call('shelf.get', {});
    first.desk.close();
    const db = new Database(first.bookPath);
    db.prepare(
      `INSERT INTO species_profile (code, profile) ${NUMBERS}
       SELECT 'sika-' || n.i, json_set(p.profile, '$.code', 'sika-' || n.i, '$.name', 'Sika ' || n.i)
       FROM n, (SELECT profile FROM species_profile WHERE code = 'sika-deer') p`,
    ).run({ most: MAX_OF_SHOP.species.most - species.length - 1 });
    db.close();
    const shop = await deskOn(first.bookPath);
    const last = await shop.call('species.save', { ...wish, name: 'Red stag', many: 'Red stags' });
    await shop.call('species.save', { ...wish, code: last.code, name: 'Red deer', many: 'Red deer' });
    await expectFull(shop, 'species.save', { ...wish, name: 'Roe', many: 'Roe' }, 'species.too-many', 200);
  }, 60_000);

  it('has a bounded number of products, which can still be changed', async () => {
    const first = await freshDesk();
    const { products } = await first.call('shelf.get', {});
    first.desk.close();
    const db = new Database(first.bookPath);
    const body = JSON.stringify({
      fat: null,
      targetFat: null,
      packageGrams: null,
      pattyGrams: null,
      ingredients: '',
    });
    db.prepare(
      `INSERT INTO product (code, name, kind, body, active) ${NUMBERS} SELECT 'p-' || n.i, 'Links ' || n.i, 'sausage', '${body}', 1 FROM n`,
    ).run({ most: MAX_OF_SHOP.product.most - products.length - 1 });
    db.close();
    const shop = await deskOn(first.bookPath);
    const { code } = await shop.call('products.save', { name: 'Brats', kind: 'sausage' });
    await shop.call('products.save', { code, name: 'Brats', kind: 'jerky' });
    await expectFull(shop, 'products.save', { name: 'One more', kind: 'sausage' }, 'product.too-many', 500);
  });

  it('has a bounded number of cutting instructions to start from, which can still be changed', async () => {
    const first = await freshDesk();
    const ready = await TRIED['templates.save']?.(first);
    const template = ready?.[1] as CallInput<'templates.save'>;
    await first.call('templates.save', template);
    const { templates } = await first.call('shelf.get', {});
    first.desk.close();
    const db = new Database(first.bookPath);
    db.prepare(
      `INSERT INTO instruction_template (name, carcass, body, active) ${NUMBERS}
       SELECT 'As ' || n.i, NULL, t.body, 1 FROM n, (SELECT body FROM instruction_template WHERE name = @name) t`,
    ).run({ name: template.name, most: MAX_OF_SHOP.template.most - templates.length });
    db.close();
    const shop = await deskOn(first.bookPath);
    const mine = (await shop.call('shelf.get', {})).templates.find(({ name }) => name === template.name);
    await shop.call('templates.save', { ...template, id: mine?.id ?? 0 });
    await expectFull(shop, 'templates.save', { ...template, name: 'One more' }, 'template.too-many', 500);
  });
});
