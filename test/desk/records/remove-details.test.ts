/** What was typed about one hunter, anywhere, is gone from the file once the hunter's details are removed. */
import { existsSync, readFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { PERSONAL_TEXT } from '../../../src/book/privacy/personal-text.ts';
import { importTable } from '../import/import-file.ts';
import { cut, deskOn, freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { addPhoto } from '../../photo-of.ts';
import { whatBelongs } from './what-belongs.ts';
import { whatIsSmoked } from './what-is-smoked.ts';

const MARK = 'Qzxmark';
const OTHER = 'Wvkother';
const PHONE = '5550177341';

const line = {
  code: 'cut', label: 'Cutting', basis: 'animal', amountMinor: 9500, rate: null, unit: null, species: null, brought: null,
  fatSource: null, taxRate: 0,
} as const; // prettier-ignore

const orders = (mark: string) => ({
  cutsShare: 0.4,
  primals: [{ primal: 'haunch', as: 'steaks' as const, size: `${mark} thick` }],
  fat: 'none',
  targetFat: null,
  grindProduct: `${mark} grind`,
  alsoGround: [{ product: `${mark} links`, grams: 2000, fat: 'none', targetFat: null }],
  packageGrams: 453.59237,
  extras: [`${mark} jerky`],
  note: `${mark} calls back`,
});

/** Another hunter's animal, ground before in a grinder that is not cleaned after it. */
async function groundBefore(shop: FreshDesk): Promise<number> {
  const id = await takeIn(shop, { hunter: { name: 'Di Stone' } });
  await cut(shop, id, { trim: '20' });
  const { id: batchId } = await shop.call('grinder.start', {
    animals: [{ id }],
    fat: 'none',
    targetFat: null,
    product: 'Ground',
  });
  await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '20' });
  shop.wait(60);
  return id;
}

/** One hunter whose every free text says `mark`, with an animal that was through everything. */
async function everything(shop: FreshDesk, mark: string, phone: string): Promise<{ hunterId: number }> {
  const person = {
    name: `${mark} Ridge`, phone, email: `${mark}@example.org`, address: `${mark} Lane 1`, licence: `L-${mark}`,
  }; // prettier-ignore
  const { id: hunterId } = await shop.call('hunters.save', person);
  await shop.call('hunters.save', {
    ...person,
    id: hunterId,
    address: `${mark} Road`,
    reason: `${mark} moved`,
  });
  const asked = {
    species: 'elk', brought: 'skinned', stage: 'hanging', typed: '400', instructions: orders(mark),
  } as const; // prettier-ignore
  await shop.call('quotes.save', { ...asked, hunterName: person.name });
  const { id: quoteId } = await shop.call('quotes.save', { ...asked, hunterId });
  const { id } = await shop.call('intake.takeIn', {
    hunter: { id: hunterId }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', licence: `L-${mark}`,
    tag: `T-${mark}`, killArea: `${mark} ranch`, condition: `${mark} says clean`, damage: `${mark} shot`,
    deliverer: { name: `${mark} Junior`, address: `${mark} Creek` }, sample: `S-${mark}`, quoteId,
    instructions: orders(mark), weights: [{ stage: 'hanging', typed: '400' }],
  }); // prettier-ignore
  const { id: draftId } = await shop.call('drafts.add', {
    language: 'es-MX', name: person.name, phone: mark, licence: `L-${mark}`, tag: `T-${mark}`, species: 'elk', sex: 'male',
    killArea: `${mark} ranch`, instructions: orders(mark), terms: '', signature: 'M10,10L20,20',
  }); // prettier-ignore
  await shop.call('drafts.dismiss', { id: draftId, reason: `${mark} left again` });
  await shop.call('animals.testResult', {
    id,
    result: 'positive',
    sample: `S-${mark}`,
    lab: `${mark} lab`,
    note: `${mark} note`,
  });
  await shop.call('animals.testResult', {
    id,
    result: 'not detected',
    lab: `${mark} lab`,
    note: 'x',
    reason: `${mark} again`,
  });
  await shop.call('animals.hold', { id, reason: `${mark} asked`, sample: `S2-${mark}` });
  await shop.call('animals.endHold', { id, reason: `${mark} agreed` });
  const { id: coolerId } = await shop.call('coolers.save', { name: `Room ${phone.slice(-2)}`, places: 9 });
  await shop.call('animals.hang', { ids: [id], coolerId, place: `${mark} hook` });
  await cut(shop, id, { 'whole cuts': '100', trim: '60', 'fat saved': '10' });
  const bone = await shop.call('table.weigh', {
    animalId: id,
    stage: 'cut',
    part: 'bone',
    typed: '60',
    note: `${mark} bone`,
  });
  await shop.call('table.correct', {
    weighingId: bone.weighingId,
    typed: '61',
    reason: `${mark} misread`,
    confirmed: true,
  });
  const { noneId } = await shop.call('table.stateNone', { animalId: id, part: 'damage' });
  await shop.call('table.voidNone', { noneId, reason: `${mark} some` });
  const { ownFat } = await shop.call('animals.get', { id });
  await shop.call('fat.count', { lotId: ownFat?.lotId ?? 0, typed: '9', reason: `${mark} counted` });

  const sourceId = await groundBefore(shop);
  const { id: batchId } = await shop.call('grinder.start', {
    animals: [{ id }],
    fat: 'none',
    targetFat: null,
    product: `${mark} grind`,
  });
  await shop.call('grinder.weighIn', { batchId, animalId: id, part: 'trim', typed: '50' });
  await shop.call('grinder.pass', { batchId, plate: `${mark} plate` });
  await shop.call('grinder.pack', {
    batchId,
    product: `${mark} grind`,
    count: 50,
    typed: '55',
    place: `${mark} shelf`,
    confirmed: true,
    reason: `${mark} water`,
  });
  await shop.call('grinder.fatTest', { batchId, percent: 9, method: `${mark} meter` });
  const cleaned = await shop.call('grinder.saveCleaning', { batchId, how: `${mark} washed` });
  await shop.call('grinder.voidCleaning', { cleaningId: cleaned.id, reason: `${mark} not yet` });
  await shop.call('grinder.finish', { batchId, reason: `${mark} fits` });
  await shop.call('grinder.reopen', { batchId, reason: `${mark} tub` });
  await shop.call('grinder.finish', { batchId });

  await shop.call('animals.hold', { id: sourceId, reason: 'sample', sample: '9' });
  await shop.call('animals.testResult', { id: sourceId, result: 'positive' });
  const told = await shop.call('animals.noteAffected', {
    id,
    sourceId,
    what: 'called',
    note: `${mark} was told`,
  });
  await shop.call('animals.voidAffected', { noteId: told.id, reason: `${mark} was not` });
  await shop.call('animals.testResult', { id: sourceId, result: 'not detected', reason: 'another sample' });

  const pay = (method: string) =>
    shop.call('bills.pay', { animalId: id, kind: 'deposit', method, typed: '20', reference: `${mark} 17` });
  const paid = await pay(`${mark} check 17`);
  await shop.call('bills.voidPayment', { paymentId: paid.id, reason: `${mark} bounced` });
  const { id: work } = await shop.call('bills.addHours', { animalId: id, lineCode: 'trimming', minutes: 30 });
  await shop.call('bills.voidHours', { workTimeId: work, reason: `${mark} did it` });
  const product = `${mark} links`;
  for (const adjustment of [
    { kind: 'free line', label: `${mark} box`, amountMinor: 500, taxRate: 0, reason: `${mark} asked` },
    { kind: 'percent off', rate: 0.1, reason: `${mark} comes each year` },
    { kind: 'charge as', product, lineCode: 'grinding', reason: `${mark} is like it` },
  ] as const)
    await shop.call('bills.adjust', { animalId: id, adjustment });
  const wrong = { kind: 'amount off', amountMinor: 100, reason: `${mark} waited` } as const;
  const { id: voided } = await shop.call('bills.adjust', { animalId: id, adjustment: wrong });
  await shop.call('bills.voidAdjustment', { adjustmentId: voided, reason: `${mark} did not` });
  const bill = await shop.call('bills.create', { animalId: id, confirmed: true });
  await shop.call('bills.void', { billId: bill.id, reason: `${mark} complained` });
  await shop.call('animals.dispose', {
    id,
    what: `${mark} all`,
    how: `${mark} pit`,
    reason: `${mark} spoiled`,
  });
  await shop.call('animals.reopen', { id, reason: `${mark} wrong one` });
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  await shop.call('pickup.saveNote', { id, text: `${mark} comes Friday` });
  await shop.call('pickup.release', { id, to: `${mark} Senior`, note: `${mark} cash`, unpaidBy: 'RO' });
  await shop.call('animals.edit', {
    id,
    changes: { givenTo: `${mark} Aunt`, tag: `T2-${mark}` },
    reason: `${mark} said so`,
  });
  await shop.call('animals.reopen', { id, reason: `${mark} came back` });
  await shop.call('pickup.release', { id, to: `${mark} Uncle`, unpaidBy: 'RO' });
  const photo = await addPhoto(shop, id);
  await shop.call('photos.void', { id: photo.id, reason: `${mark} is not in it` });
  await whatBelongs(shop, hunterId, mark);
  await whatIsSmoked(shop, hunterId, mark);
  // Brought by somebody else's name first, and put right.
  const lent = await takeIn(shop, { hunter: { id: hunterId }, tag: `T3-${mark}` });
  await shop.call('animals.edit', {
    id: lent,
    changes: { owner: { name: 'Cy Marsh' }, tag: 'T-9' },
    reason: `${mark} no`,
  });
  await importTable(
    shop,
    'animals',
    `Ticket,Date,Hunter,Phone,Species,Brought as,Hanging\nN-${mark},2019-11-04,${person.name},${phone},elk,skinned,300`,
  );
  return { hunterId };
}

/** Columns of the list in which no row says `mark`. */
function without(path: string, mark: string): string[] {
  const db = new Database(path, { readonly: true });
  const silent = Object.entries(PERSONAL_TEXT).flatMap(([table, { columns }]) =>
    Object.keys(columns)
      .filter((column) => {
        const count = db.prepare<[string], number>(
          `SELECT count(*) FROM ${table} WHERE instr(lower(coalesce(${column}, '')), lower(?)) > 0`,
        );
        return count.pluck().get(mark) === 0;
      })
      .map((column) => `${table}.${column}`),
  );
  db.close();
  return silent;
}

const files = (path: string): string =>
  [path, `${path}-wal`]
    .filter((one) => existsSync(one))
    .map((one) => readFileSync(one).toString('latin1').toLowerCase())
    .join('\n');

/** Where a text stands in the file, with what is around it. */
const said = (file: string, mark: string): string[] =>
  [...file.matchAll(new RegExp(mark, 'gi'))].map(({ index }) =>
    file.slice(Math.max(0, index - 40), index + 40).replace(/[^\x20-\x7e]/g, '.'),
  );

const YEARS = 5 * 366 * 86_400;

describe('removing a hunter’s details', () => {
  it('leaves nothing of what was typed about the hunter in the file, and all of what was typed about another', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', {
      name: 'Ours',
      validFrom: '2020-01-01',
      taxRule: 'per bill',
      lines: [
        line,
        { ...line, code: 'trimming', basis: 'hour' },
        { ...line, code: 'grinding', basis: 'ground', unit: 'lb' },
      ],
    });
    const { hunterId } = await everything(shop, MARK, PHONE);
    await everything(shop, OTHER, '5550188452');
    // A telephone number has no letters, an entry's answer and a signature have only numbers, and nothing writes a note about a hunter any more.
    const NO_LETTERS = [
      'hunter.phone',
      'hunter.phone_key',
      'hunter.note',
      'station_entry.answer',
      'draft.signature',
    ];
    expect(without(shop.bookPath, MARK).sort()).toEqual([...NO_LETTERS].sort());
    expect(files(shop.bookPath)).toContain(MARK.toLowerCase());
    const weights = (await shop.call('season.yields', { season: 2026 })).species;
    shop.wait(YEARS);
    await shop.call('shop.trustClock', {});
    expect(await shop.call('hunters.removeDetails', { id: hunterId, reason: 'asked by letter' })).toEqual({
      id: hunterId,
      wiped: true,
    });
    const left = files(shop.bookPath);
    expect(said(left, MARK)).toEqual([]);
    expect(said(left, PHONE)).toEqual([]);
    expect(left).toContain('asked by letter');
    expect(without(shop.bookPath, OTHER).sort()).toEqual([...NO_LETTERS].sort());
    expect((await shop.call('season.yields', { season: 2026 })).species).toEqual(weights);
    // The same book, read anew, says the same, and a desk finds nothing broken in it.
    shop.desk.close();
    const again = await deskOn(shop.bookPath, '2031-10-12T15:00:00Z');
    expect((await again.call('season.yields', { season: 2026 })).species).toEqual(weights);
    const { hunter } = await again.call('animals.get', { ticket: '26-0001' });
    expect(hunter).toMatchObject({ id: hunterId, name: `removed ${hunterId}`, phone: '' });
    await again.call('animals.getHistory', { id: 1 });
    await again.call('bills.get', { animalId: 1 });
    await again.call('quotes.get', { id: 1 });
    expect(again.broken).toEqual([]);
    again.desk.close();
  });

  it('takes the name out of a quote that was given by phone, however it was spelled there', async () => {
    const shop = await freshDesk();
    const { id } = await shop.call('hunters.save', { name: 'Émile Ångström' });
    const asked = { species: 'elk', brought: 'skinned', stage: 'hanging', typed: '400' } as const;
    for (const hunterName of ['ÉMILE  ÅNGSTRÖM', 'emile angstrom', 'Bo Lind'])
      await shop.call('quotes.save', { ...asked, instructions: orders('usual'), hunterName });
    await shop.call('hunters.removeDetails', { id, reason: 'asked by letter' });
    const names = (await shop.call('quotes.list', {})).map(({ hunter }) => hunter);
    expect(names.filter((name) => name !== null && name !== '')).toEqual(['Bo Lind']);
    shop.desk.close();
  });

  it('keeps the name of a product that others order too', async () => {
    const shop = await freshDesk();
    const own = { ...orders('House'), note: '' };
    for (const name of ['Dana Whitlock', 'Cy Marsh']) {
      const { id } = await shop.call('intake.takeIn', {
        hunter: { name }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', instructions: own,
      }); // prettier-ignore
      await shop.call('table.weigh', {
        animalId: id,
        stage: 'packed',
        part: 'package',
        product: 'House grind',
        count: 9,
        typed: '9',
      });
      await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
      await shop.call('pickup.release', { id, to: name, unpaidBy: 'RO' });
    }
    shop.wait(YEARS);
    await shop.call('shop.trustClock', {});
    await shop.call('hunters.removeDetails', { id: 1, reason: 'asked' });
    const page = await shop.call('animals.get', { ticket: '26-0001' });
    expect(page.instructions).toMatchObject({ grindProduct: 'House grind', extras: ['House jerky'] });
    expect(page.packages[0]?.product).toBe('House grind');
    shop.desk.close();
  });

  it('covers what a hunter paid and took of an animal that stands in another name, and leaves the other’s as it was', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [line] });
    const id = await takeIn(shop, { hunter: { name: 'Dana Whitlock' } });
    const pack = { stage: 'packed', part: 'package', product: 'Steaks', count: 9, typed: '9' } as const;
    await shop.call('table.weigh', { animalId: id, ...pack });
    await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
    const { hunter } = await shop.call('animals.get', { id });
    const { id: bob } = await shop.call('hunters.save', { name: `${MARK} Ray` });
    const shares = [hunter.id, bob].map((one) => ({ hunter: { id: one }, typed: '1' }));
    await shop.call('shares.save', { animalId: id, basis: 'pieces', shares });
    await shop.call('bills.create', { animalId: id, confirmed: true });
    const pay = (payer: number, reference: string) =>
      shop.call('bills.pay', { animalId: id, kind: 'payment', method: 'check', typed: '40', hunterId: payer, reference });
    const { id: bounced } = await pay(bob, `C-${MARK}`);
    await shop.call('bills.voidPayment', { paymentId: bounced, reason: `${MARK} bounced` });
    await pay(bob, `D-${MARK}`);
    await pay(hunter.id, 'C-7788');
    await shop.call('shares.release', { id, hunterId: hunter.id, to: 'Dana Whitlock', unpaidBy: 'RO' });
    await shop.call('shares.release', { id, hunterId: bob, to: `${MARK.toUpperCase()}  Ray`, unpaidBy: 'RO' });
    shop.wait(YEARS);
    await shop.call('shop.trustClock', {});
    await shop.call('hunters.removeDetails', { id: bob, reason: 'asked by letter' });
    const left = files(shop.bookPath);
    expect(said(left, MARK)).toEqual([]);
    for (const kept of ['Dana Whitlock', 'C-7788']) expect(left).toContain(kept.toLowerCase());
    shop.desk.close();
  }); // prettier-ignore

  it('takes nothing in for the hunter any more', async () => {
    const shop = await freshDesk();
    const { id } = await shop.call('hunters.save', { name: 'Dana Whitlock' });
    await shop.call('hunters.removeDetails', { id, reason: 'asked' });
    const gone = { kind: 'refused', code: 'hunter.gone' };
    expect(await shop.problem('hunters.save', { id, name: 'Dana Whitlock' })).toMatchObject(gone);
    expect(
      await shop.problem('intake.takeIn', {
        hunter: { id },
        species: 'elk',
        sex: 'male',
        age: 'adult',
        brought: 'whole',
      }),
    ).toMatchObject(gone);
    shop.desk.close();
  });
});
