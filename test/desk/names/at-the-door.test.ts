/** Names of built-in things in calls: translated in answers, understood in inputs, and left alone where they are the shop's own. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { CallInput, CallName, CallOutput } from '../../../src/bridge/contract.ts';
import { answerSaid, inputMeant } from '../../../src/desk/names/at-the-door.ts';
import { lineIn, reasonIn } from '../../../src/desk/names/names.ts';
import type { Language } from '../../../src/words/languages.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

async function callIn<N extends CallName>(
  shop: FreshDesk,
  language: Language,
  name: N,
  input: CallInput<N>,
): Promise<CallOutput<N>> {
  const answer = await shop.desk.call(name, input, undefined, language);
  if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
  return answer.value as CallOutput<N>;
}

/** What the first row says, as the book keeps it. */
function inBook({ bookPath }: FreshDesk, sql: string): unknown {
  const db = new Database(bookPath, { readonly: true });
  const found = db.prepare(sql).pluck().get();
  db.close();
  return found;
}

describe('an answer', () => {
  it('names species, their words and parts by code, in the language asked for', async () => {
    const shop = await freshDesk();
    const { species } = await callIn(shop, 'es-MX', 'shelf.get', {});
    const of = (code: string) => species.find((one) => one.code === code)!;
    expect(of('elk')).toMatchObject({ name: 'Wapití (elk)', words: { male: 'macho', young: 'cría' } });
    expect(of('white-tail').words.young).toBe('cervato');
    expect(of('pronghorn').words.young).toBe('cría');
    expect(of('wild-boar').primals.map(({ name }) => name)).toContain('Panceta y costillas');
    const french = await callIn(shop, 'fr-CA', 'shelf.get', {});
    expect(french.species.find(({ code }) => code === 'moose')?.name).toBe('Orignal');
    expect((await callIn(shop, 'en-US', 'shelf.get', {})).species[0]?.name).toBe('White-tailed deer');
    shop.desk.close();
  });

  it('keeps what a shop named itself', async () => {
    const shop = await freshDesk();
    await shop.call('products.save', { code: 'steaks', name: 'Rosa’s steaks', kind: 'whole cuts', fat: null, targetFat: null, packageTyped: '', pattyTyped: '', ingredients: '' } as never); // prettier-ignore
    const { products } = await callIn(shop, 'es-MX', 'shelf.get', {});
    expect(products.find(({ code }) => code === 'steaks')?.name).toBe('Rosa’s steaks');
    expect(products.find(({ code }) => code === 'chops')?.name).toBe('Chuletas');
    shop.desk.close();
  });

  it('names a price line that is called like its product', () => {
    const said = (value: unknown) => answerSaid('prices.get', { ok: true, value }, 'es-MX');
    const book = {
      lines: [
        { code: 'own-1', label: 'Breakfast sausage' },
        { code: 'own-2', label: 'Deer, in a hurry' },
      ],
    };
    expect(said(book)).toEqual({
      ok: true,
      value: {
        lines: [
          { code: 'own-1', label: 'Salchicha para desayuno' },
          { code: 'own-2', label: 'Deer, in a hurry' },
        ],
      },
    });
  });

  it.each([
    ['es-MX', 'Grinding (min. 2.5 lb)', 'Molienda (mín. 2.5 lb)'],
    ['fr-CA', 'Grinding (price changed)', 'Hachage (prix modifié)'],
    ['fr-CA', 'Deer (doe), in a hurry (min. 25 kg)', 'Deer (doe), in a hurry (min. 25 kg)'],
    ['es-MX', 'Deer, in a hurry (price changed)', 'Deer, in a hurry (precio cambiado)'],
    ['es-MX', 'Discount: weighed twice', 'Descuento: pesado dos veces'],
    ['fr-CA', 'Discount: waited long', 'Rabais\u00a0: waited long'],
    ['fr-CA', 'Tax', 'Taxe'],
  ] as const)('says in %s what the program calls a line: %s', (language, english, said) => {
    const bill = (label: string) => ({ lines: [{ code: 'a', label }] });
    expect(answerSaid('bills.get', { ok: true, value: bill(english) }, language)).toEqual({
      ok: true,
      value: bill(said),
    });
    expect(inputMeant('prices.save', bill(said), language)).toEqual(bill(english));
  });

  it('never touches a text of a person, or a code', () => {
    const value = { hunter: 'Ginger', name: 'Salt', note: 'Steaks', species: 'elk', by: 'SA' };
    expect(answerSaid('hunters.find', { ok: true, value }, 'es-MX')).toEqual({ ok: true, value });
  });

  it('is not copied where it holds no names', () => {
    const rows = { list: [{ ticket: '26-0001', grams: 5 }], product: 'Own thing' };
    const answer = answerSaid('rail.get', { ok: true, value: rows }, 'fr-CA');
    expect(answer.ok && answer.value).toBe(rows);
  });
});

describe('a reason', () => {
  it('that one window offered is said by another in its own language, also in the history', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const { weighingId } = await callIn(shop, 'es-MX', 'table.weigh', { animalId: id, stage: 'cut', part: 'trim', typed: '5' } as CallInput<'table.weigh'>); // prettier-ignore
    await callIn(shop, 'es-MX', 'table.void', { weighingId, reason: 'pesado dos veces' });
    const told = async (language: Language) => {
      const page = await callIn(shop, language, 'animals.get', { id });
      const history = await callIn(shop, language, 'animals.getHistory', { id });
      return [
        page.weighings.find((one) => one.id === weighingId)?.voided?.reason,
        ...history.flatMap(({ what, reason }) => (what === 'weight-voided' ? [reason] : [])),
      ];
    };
    expect(await told('en-US')).toEqual(['weighed twice', 'weighed twice']);
    expect(await told('fr-CA')).toEqual(['pesé deux fois', 'pesé deux fois']);
    expect(await told('es-MX')).toEqual(['pesado dos veces', 'pesado dos veces']);
    expect(inBook(shop, 'SELECT reason FROM weighing_void')).toBe('reason:weighed-twice');
    shop.desk.close();
  });

  it('in a person’s own words is kept and told as it was typed, also beside a code', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const { weighingId } = await callIn(shop, 'en-US', 'table.weigh', { animalId: id, stage: 'cut', part: 'trim', typed: '5' } as CallInput<'table.weigh'>); // prettier-ignore
    await callIn(shop, 'en-US', 'table.void', { weighingId, reason: 'Weighed twice, I think' });
    const { weighings } = await callIn(shop, 'es-MX', 'animals.get', { id });
    expect(weighings.find((one) => one.id === weighingId)?.voided?.reason).toBe('Weighed twice, I think');
    shop.desk.close();
  });

  it('is printed in words on the line of a discount, which the bill keeps as it was printed', () => {
    expect(reasonIn('en-US', 'reason:weighed-twice')).toBe('weighed twice');
    expect(lineIn('es-MX', 'Discount: weighed twice')).toBe('Descuento: pesado dos veces');
    expect(lineIn('en-US', 'Discount: weighed twice')).toBe('Discount: weighed twice');
  });
});

describe('how a piece is wanted', () => {
  it('is kept as a code, and the history says it, the piece and the product in each language', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const orders = { cutsShare: 0.4, fat: 'none', targetFat: null, pattyGrams: null, alsoGround: [], packageGrams: 454, pricedExtras: {}, extras: [], note: '' }; // prettier-ignore
    const save = (grindProduct: string, size: string) =>
      callIn(shop, 'fr-CA', 'animals.saveOrders', { id, instructions: { ...orders, grindProduct, primals: [{ primal: 'neck', as: 'whole', size }] } } as unknown as CallInput<'animals.saveOrders'>); // prettier-ignore
    await save('Haché', 'désossé');
    await save('Haché', 'avec os');
    expect(inBook(shop, "SELECT body ->> '$.primals[0].size' FROM instruction ORDER BY id DESC")).toBe('size:bone-in'); // prettier-ignore
    const told = async (language: Language) =>
      (await callIn(shop, language, 'animals.getHistory', { id })).flatMap(({ changes }) => changes).find(({ field }) => field === 'piece'); // prettier-ignore
    expect(await told('es-MX')).toEqual({ field: 'piece', of: 'Pescuezo', before: { as: 'whole', size: 'sin hueso' }, after: { as: 'whole', size: 'con hueso' } }); // prettier-ignore
    expect(await told('en-US')).toMatchObject({ of: 'Neck', before: { size: 'boneless' }, after: { size: 'bone in' } }); // prettier-ignore
    shop.desk.close();
  });
});

describe('an input', () => {
  it('means the same product, whatever the window called it', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const pack = {
      animalId: id,
      stage: 'packed',
      part: 'package',
      product: 'Chuletas',
      count: 2,
      typed: '3',
    } as const;
    await callIn(shop, 'es-MX', 'table.weigh', pack as CallInput<'table.weigh'>);
    const products = async (language: Language) =>
      (await callIn(shop, language, 'animals.get', { id })).packages.map(({ product }) => product);
    expect(await products('en-US')).toEqual(['Chops']);
    expect(await products('fr-CA')).toEqual(['Côtelettes']);
    shop.desk.close();
  });

  it('tells parts of one name apart by their code, and keeps a word that means several', () => {
    const primals = [{ code: 'ham', name: 'Fesse' }, { name: 'Cuisse' }];
    expect(inputMeant('species.save', { code: 'wild-boar', primals }, 'fr-CA')).toEqual({
      code: 'wild-boar',
      primals: [{ code: 'ham', name: 'Ham' }, { name: 'Hind leg' }],
    });
    const words = { male: 'mâle', female: 'femelle', young: 'jeune' };
    expect(inputMeant('species.save', { name: 'Daim', words }, 'fr-CA')).toMatchObject({
      name: 'Daim',
      words: { male: 'mâle', female: 'femelle' },
    });
  });

  it('saves prices that were read in another language without a change', async () => {
    const shop = await freshDesk();
    const before = await shop.call('prices.get', {});
    const { lines, name } = (await callIn(shop, 'fr-CA', 'prices.get', {}))!;
    expect(name).toBe('Prix d’exemple');
    expect(lines.some(({ label }) => label === 'Hachage')).toBe(true);
    await callIn(shop, 'fr-CA', 'prices.save', {
      name,
      validFrom: '2026-10-10',
      lines: lines as CallInput<'prices.save'>['lines'],
    });
    const after = await shop.call('prices.get', {});
    expect(after?.lines.map(({ label }) => label)).toEqual(before?.lines.map(({ label }) => label));
    expect(after?.name).toBe('Example prices');
    shop.desk.close();
  });
});
