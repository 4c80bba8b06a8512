import { createPinia, setActivePinia } from 'pinia';
import { reactive } from 'vue';
import { beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { inputMeant } from '../../../src/desk/names/at-the-door.ts';
import type { PrimalWeighed, WeighingRow } from '../../../src/bridge/contract.ts';
import { useOpening } from '../../../src/ui/link/opening.ts';
import { useDrafts } from '../../../src/ui/stores/drafts.ts';
import {
  entryName,
  firstStage,
  freshEntry,
  nextPrimal,
  nextProduct,
  packagesIn,
} from '../../../src/ui/weighing/entry.ts';
import { weighingInSentence } from '../../../src/ui/weighing/weighing-name.ts';
import { primalFacts } from '../../../src/ui/table/primal-facts.ts';
import { primalKeys } from '../../../src/ui/table/primal-keys.ts';
import { text as intakeText } from '../../../src/words/compiled/window/intake.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { piecesText } from '../../../src/ui/texts/pieces.ts';
import { SOURCE_LANGUAGE } from '../../../src/words/languages.ts';
import { loadLanguage } from '../../../src/words/load.ts';
import { speakWith } from '../../../src/words/speech.ts';

const shop = vi.hoisted(() => ({ look: { bookPath: 'one' } as { bookPath: string } }));
vi.mock('../../../src/ui/stores/shop.ts', () => ({ useShop: () => shopView }));
const shopView = reactive(shop);

const primal = (code: string, name: string, more: Partial<PrimalWeighed> = {}): PrimalWeighed => ({
  code, name, pair: false, brought: 1, grams: null, share: null, usual: null, odd: false, oneSide: false, ...more,
}); // prettier-ignore
const PRIMALS = [primal('neck', 'Neck'), primal('shoulder', 'Shoulder', { pair: true, brought: 2 })];
const weighed = (stage: WeighingRow['stage'], more: Partial<WeighingRow> = {}) =>
  ({ stage, voided: null, product: null, place: null, ...more }) as WeighingRow;
const deer = (more: object = {}) =>
  ({
    stage: 'hanging',
    brought: 'skinned',
    detail: 'detailed',
    weighings: [] as WeighingRow[],
    primals: PRIMALS,
    instructions: { cutsShare: 0.4, grindProduct: 'Ground', alsoGround: [] },
    ...more,
  }) as unknown as Parameters<typeof firstStage>[0];

describe('the next weight', () => {
  it.each([
    ['the hook first', deer(), 'hanging'],
    ['then the parts', deer({ weighings: [weighed('hanging')] }), 'cut'],
    [
      'or packages at once, if weighed quickly',
      deer({ detail: 'quick', weighings: [weighed('hanging')] }),
      'packed',
    ],
    ['on with primals once one was', deer({ weighings: [weighed('hanging'), weighed('primal')] }), 'primal'],
    ['pieces as they came in', deer({ brought: 'quarters' }), 'received'],
    ['and never on the hook', deer({ brought: 'boned', weighings: [weighed('received')] }), 'cut'],
    ['packages once the cutting is over', deer({ stage: 'packing' }), 'packed'],
  ])('is %s', (_, page, stage) => expect(firstStage(page)).toBe(stage));

  it('visits the received primals, and stays at one with a missing side', () => {
    expect(nextPrimal(PRIMALS)).toBe('neck');
    expect(nextPrimal(PRIMALS, 'neck')).toBe('shoulder');
    const half = [primal('neck', 'Neck', { grams: 9 }), { ...PRIMALS[1]!, grams: 9, oneSide: true }];
    expect(nextPrimal(half, 'shoulder')).toBe('shoulder');
    expect(
      nextPrimal([primal('neck', 'Neck', { grams: 9 }), primal('ham', 'Ham', { brought: 0 })]),
    ).toBeNull();
  });

  it('offers product after product of an animal weighed quickly, with the last place', () => {
    const quick = deer({ detail: 'quick', stage: 'packing' });
    expect(freshEntry(quick)).toMatchObject({
      stage: 'packed',
      product: 'Steaks and roasts',
      count: '',
      place: '',
    });
    expect(nextProduct(quick, 'Steaks and roasts')).toBe('Ground');
    const packed = deer({
      detail: 'quick',
      stage: 'packing',
      weighings: [weighed('packed', { product: 'Steaks and roasts', place: 'Freezer 2' })],
    });
    expect(freshEntry(packed)).toMatchObject({ product: 'Ground', place: 'Freezer 2' });
  });

  it('offers whole cuts by their name in a Spanish window, which the desk stores as the English one', async () => {
    await loadLanguage('es-MX');
    speakWith({ language: () => 'es-MX' });
    onTestFinished(() => speakWith({ language: () => SOURCE_LANGUAGE }));
    const { product } = freshEntry(deer({ detail: 'quick', stage: 'packing' }));
    expect(product).toBe('Bistecs y asados');
    expect(inputMeant('table.weigh', { product }, 'es-MX')).toEqual({ product: 'Steaks and roasts' });
  });

  it('counts packages from their weight, at least one', () => {
    expect(packagesIn('24.3', 453.59237, 'lb')).toBe('24');
    expect(packagesIn('0.2', 453.59237, 'lb')).toBe('1');
    expect(packagesIn('heavy', 453.59237, 'lb')).toBe('');
  });

  it('names a part with the primal that it came from', () => {
    const entry = { stage: 'cut', part: 'trim', product: '', primal: 'shoulder' } as const;
    expect(entryName(entry, PRIMALS)).toBe('Trim from Shoulder');
    expect(entryName({ ...entry, stage: 'primal' }, PRIMALS)).toBe('Shoulder');
  });

  it.each([
    ['hanging', 'carcass', null, null, 'hanging weight'],
    ['cut', 'trim', 'shoulder', null, 'trim from Shoulder'],
    ['primal', 'primal', 'shoulder', null, 'Shoulder'],
    ['packed', 'package', null, 'Jerky', 'Jerky'],
    ['packed', 'package', null, null, 'packages'],
    ['grinder', 'trim', null, null, 'trim into the grinder'],
  ] as const)('names a %s weight of %s inside a sentence', (stage, part, of, product, said) =>
    expect(weighingInSentence({ stage, part, primal: of, product }, PRIMALS)).toBe(said),
  );
});

describe('texts about primals', () => {
  it('give each primal a distinct letter', () =>
    expect(primalKeys([...PRIMALS, primal('saddle', 'Saddle')])).toEqual({
      neck: 'N',
      shoulder: 'S',
      saddle: 'A',
    }));

  it('show weight and share on the map, dim absent primals and mark inconsistent ones', () => {
    const format = makeFormat({ unit: 'kg', step: 0.05, locale: 'en-US', currency: 'USD' });
    const facts = primalFacts(
      {
        primals: [
          primal('neck', 'Neck', { grams: 5000, share: 0.125, odd: true }),
          primal('ham', 'Ham', { brought: 0 }),
          primal('shoulder', 'Shoulder', { pair: true, brought: 1 }),
        ],
      },
      format,
    );
    expect(facts).toEqual({
      neck: { text: '5.00 kg 12.5%', odd: true, tone: '--part-lean' },
      ham: { text: 'not brought', dim: true },
      shoulder: { text: '1 came in' },
    });
  });

  it('state the received pieces, and how often the shop weighs all parts', () => {
    expect(piecesText([{ primal: 'shoulder', count: 1 }, { primal: 'neck', count: 2 }], PRIMALS)).toBe(
      '1 × Shoulder, 2 × Neck',
    ); // prettier-ignore
    expect([1, 2, 3, 10, 11, 22].map((every) => intakeText.inDetail({ every }))).toEqual([
      'all in detail', 'every 2nd in detail', 'every 3rd in detail', 'every 10th in detail', 'every 11th in detail', 'every 22nd in detail',
    ]); // prettier-ignore
  });
});

describe('drafts', () => {
  beforeEach(() => setActivePinia(createPinia()));
  const fresh = () => ({ typed: '', part: 'trim' });

  it('are restored, each under its own name', () => {
    const drafts = useDrafts();
    const entry = drafts.of('table 1', fresh);
    entry.typed = '18.6';
    entry.part = 'bone';
    expect(drafts.of('table 1', fresh)).toBe(entry);
    expect(drafts.of('table 2', fresh)).toEqual(fresh());
  });

  it('start fresh once saved, and without edits', () => {
    const drafts = useDrafts();
    const entry = drafts.of('table 1', fresh);
    expect(drafts.of('table 1', () => ({ typed: '', part: 'bone' }))).toEqual({ typed: '', part: 'bone' });
    const again = drafts.of('table 1', fresh);
    again.typed = '18.6';
    again.typed = '';
    again.part = 'sinew';
    drafts.rest('table 1');
    expect(drafts.of('table 1', fresh)).toEqual(fresh());
    expect(entry).toEqual(fresh());
  });

  it('end with the opening of the book', () => {
    const drafts = useDrafts();
    drafts.of('table 1', fresh).typed = '18.6';
    drafts.lastPlace = 'Freezer 2';
    useOpening().shown = 'of another book';
    expect(drafts.of('table 1', fresh)).toEqual(fresh());
    expect(drafts.lastPlace).toBe('');
  });
});
