/** Slips for night drop-off: each finds what was typed for it, or the animal that came with it, and comes in once. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { addByPhone } from '../../../src/desk/animals/check-in/drafts.ts';
import { slipCodeIn } from '../../../src/desk/animals/check-in/slip-code.ts';
import { freshDesk } from '../fresh-desk.ts';
import { floorOn, type Floor } from '../stations/floor.ts';

const PHONE = { language: 'fr-CA', name: 'Luc Morin', species: 'elk', sex: 'male' } as const;
const INTAKE = {
  hunter: { name: 'Luc Morin' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
} as const; // prettier-ignore

let floor: Floor;
let code: string;
beforeEach(async () => {
  floor = await floorOn(await freshDesk());
  [code = ''] = (await floor.call('slips.add', { count: 3 })).codes;
});
afterEach(() => floor.desk.close());

const typed = (slip = code) =>
  floor.call('drafts.add', { ...PHONE, slip, terms: '', signature: '' }).then(({ id }) => id);

it.each([
  ['483-201-957', '483-201-957'],
  [' 483 201 957 ', '483-201-957'],
  ['483201957', '483-201-957'],
  ['26-0147', null],
  ['4832019571', null],
  ['483-201-95a', null],
])('the number %j is read as %j', (text, read) => expect(slipCodeIn(text)).toBe(read));

describe('a slip', () => {
  it('has a number of its own', async () => {
    const { codes } = await floor.call('slips.add', { count: 40 });
    expect(new Set([...codes, code]).size).toBe(41);
    for (const one of codes) expect(slipCodeIn(one)).toBe(one);
    expect(await floor.problem('slips.add', { count: 41 })).toMatchObject({ code: 'count.range' });
  });

  it('finds what was typed for it, then the animal that came with it', async () => {
    expect(await floor.call('slips.find', { code })).toEqual({ code, draft: null, ticket: null });
    const draftId = await typed(code.replaceAll('-', ''));
    expect(await floor.call('slips.find', { code })).toMatchObject({ draft: { id: draftId, slip: code } });
    const { id, ticket } = await floor.call('intake.takeIn', { ...INTAKE, draftId });
    expect(await floor.call('slips.find', { code })).toEqual({ code, draft: null, ticket });
    expect(await floor.call('animals.find', { text: code })).toMatchObject([{ id, ticket }]);
  });

  it('that was filled in with a pen comes in with its animal', async () => {
    const { ticket } = await floor.call('intake.takeIn', { ...INTAKE, slip: code });
    expect(await floor.call('slips.find', { code })).toMatchObject({ draft: null, ticket });
  });

  it('comes in once, and is typed for once', async () => {
    const draftId = await typed();
    const filled = { kind: 'refused', code: 'slip.filled', field: 'slip', with: { code } };
    expect(await floor.problem('drafts.add', { ...PHONE, slip: code, terms: '' })).toEqual(filled);
    expect(await floor.problem('intake.takeIn', { ...INTAKE, slip: code })).toEqual(filled);
    const { ticket } = await floor.call('intake.takeIn', { ...INTAKE, draftId });
    const used = { kind: 'refused', code: 'slip.used', field: 'slip', with: { ticket } };
    expect(await floor.problem('intake.takeIn', { ...INTAKE, slip: code })).toEqual(used);
    expect(await floor.problem('drafts.add', { ...PHONE, slip: code, terms: '' })).toEqual(used);
  });

  it('is blank again once what was typed for it is put aside, and then refuses what is put back', async () => {
    const draftId = await typed();
    await floor.call('drafts.dismiss', { id: draftId, reason: 'typed twice' });
    const { ticket } = await floor.call('intake.takeIn', { ...INTAKE, slip: code });
    await floor.call('drafts.restore', { id: draftId });
    expect(await floor.problem('intake.takeIn', { ...INTAKE, draftId })).toMatchObject({
      code: 'slip.used',
      with: { ticket },
    });
  });

  it('of no shop is unknown, and a wrong number is no slip', async () => {
    expect(await floor.problem('slips.find', { code: '000-000-000' })).toMatchObject({
      kind: 'missing',
      code: 'slip.unknown',
    });
    expect(await floor.problem('slips.find', { code: '26-0147' })).toMatchObject({ code: 'slip.unreadable' });
  });

  it('shows the counter no address that the book knew before', async () => {
    await floor.call('hunters.save', { name: 'Luc Morin', phone: '418 555 0142', address: 'Old Road 1' });
    await floor.call('drafts.add', { ...PHONE, phone: '418 555 0142', slip: code, terms: '' });
    const counter = await floor.pair('counter');
    expect(await counter.call('slips.find', { code })).toMatchObject({
      value: { draft: { phone: '418 555 0142', known: { name: 'Luc Morin', address: '', phone: '' } } },
    });
  });
});

describe('what is typed on a hunter’s own phone', () => {
  const byPhone = (more: object = {}) => {
    const session = floor.desk.session();
    if (!session) throw new Error('no book');
    return session.book.change(() => addByPhone(session, { ...PHONE, ...more }));
  };

  it('waits like any other, without license number and signature', async () => {
    await floor.call('shop.saveSettings', { changes: { dropOffTerms: 'Pick up soon.' } });
    byPhone({ slip: code, licence: 'L-1', signature: 'M1,1L2,2', terms: 'Others' });
    expect(await floor.call('drafts.list', {})).toMatchObject([
      { name: 'Luc Morin', licence: '', signed: false, slip: code, byPhone: true },
    ]);
  });

  it('is held to the same rules', () => {
    expect(() => byPhone({ name: ' ' })).toThrow('text.needed');
    expect(() => byPhone({ species: 'unicorn' })).toThrow('species.unknown');
    expect(() => byPhone({ killDate: '2099-01-01' })).toThrow('date.');
    expect(() => byPhone({ slip: '000-000-000' })).toThrow('slip.unknown');
  });

  it('fills its own queue and no tablet’s', async () => {
    for (let i = 0; i < 40; i += 1) byPhone();
    expect(() => byPhone()).toThrow('draft.too-many');
    const tablet = await floor.pair('hunter');
    expect(await tablet.call('drafts.add', { ...PHONE, terms: '' })).toMatchObject({ ok: true });
  });
});
