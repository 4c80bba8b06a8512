/** The number entry of the Table as it stands, and what it comes to next. Pure: the page of the animal decides. */
import type { AnimalPage, CutPart, PrimalWeighed } from '../../bridge/contract.ts';
import { readingGrams } from '../../core/values/reading.ts';
import { readingIn } from '../parts/weight-echo.ts';
import type { Taken } from '../scale/useScaleEntry.ts';
import { words } from '../texts/en/common.ts';
import { weighingName } from './weighing-name.ts';

export type EntryStage = 'received' | 'hanging' | 'primal' | 'cut' | 'packed';

export interface Entry {
  stage: EntryStage;
  part: CutPart;
  /** The primal on the scale, or the one that a part came off; '' for none. */
  primal: string;
  typed: string;
  /** Where `typed` came off a scale. */
  taken: Taken | null;
  tare: string;
  product: string;
  /** As typed; empty: as many as the weight makes. */
  count: string;
  place: string;
  /** Id of the kept weight that is being weighed again, or null. */
  correcting: number | null;
}

type EntryView = Pick<AnimalPage, 'stage' | 'brought' | 'detail' | 'weighings' | 'primals' | 'instructions'>;

export function freshEntry(page: EntryView): Entry {
  const stage = firstStage(page);
  return {
    stage,
    part: 'whole cuts',
    primal: stage === 'primal' ? (nextPrimal(page.primals) ?? '') : '',
    typed: '',
    taken: null,
    tare: '',
    product: nextProduct(page),
    count: '',
    place: placeOf(page),
    correcting: null,
  };
}

/** Boned meat and pieces are weighed as they came in; they never hang as a carcass. */
export const inPieces = ({ brought }: Pick<AnimalPage, 'brought'>): boolean =>
  brought !== 'whole' && brought !== 'skinned';

/** What is weighed next of an animal that is weighed in the usual order. */
export function firstStage(page: EntryView, justKept?: EntryStage): EntryStage {
  const weighed = (stage: EntryStage): boolean =>
    stage === justKept || page.weighings.some((row) => row.stage === stage && row.voided === null);
  if (page.stage === 'packing' || page.stage === 'ready') return 'packed';
  if (!weighed('hanging') && !weighed('cut')) {
    if (!inPieces(page)) return 'hanging';
    if (!weighed('received')) return 'received';
  }
  if (page.detail === 'quick') return 'packed';
  return weighed('primal') && !weighed('cut') && nextPrimal(page.primals) ? 'primal' : 'cut';
}

/** The next primal that came in and is not on the book whole, after `code`; null when all are. */
export function nextPrimal(primals: readonly PrimalWeighed[], code = ''): string | null {
  const at = primals.findIndex((primal) => primal.code === code);
  const inTurn = [...primals.slice(at + 1), ...primals.slice(0, at + 1)];
  return (
    inTurn.find(({ brought, grams, oneSide }) => brought > 0 && (grams === null || oneSide))?.code ?? null
  );
}

/** What is packed at the table: steaks and roasts, and of an animal weighed quickly what is ground too. */
export function productsToPack({
  detail,
  instructions,
}: Pick<EntryView, 'detail' | 'instructions'>): string[] {
  const { cutsShare, grindProduct, alsoGround } = instructions;
  const ground = cutsShare < 1 ? [...alsoGround.map(({ product }) => product), grindProduct] : [];
  const whole = cutsShare > 0 || ground.length === 0 ? [words.wholeCutsProduct] : [];
  return detail === 'quick' ? [...whole, ...ground] : whole;
}

/** The first of them that nothing is packed of yet; the last one again when all are. */
export function nextProduct(page: EntryView, justKept?: string): string {
  const due = productsToPack(page);
  const packed = (product: string): boolean =>
    product === justKept ||
    page.weighings.some((row) => row.stage === 'packed' && row.voided === null && row.product === product);
  return due.find((product) => !packed(product)) ?? due.at(-1) ?? words.wholeCutsProduct;
}

/** Where packages of this animal were put last. */
function placeOf({ weighings }: Pick<EntryView, 'weighings'>): string {
  return weighings.findLast((row) => row.voided === null && row.place !== null)?.place ?? '';
}

/**
 * How many packages a weight makes, to be checked by eye; '' while it is no weight.
 * @example packagesIn('24.3', 453.59237, 'lb') // '24'
 */
export function packagesIn(typed: string, packageGrams: number, unit: 'lb' | 'kg'): string {
  const reading = readingIn(typed, unit);
  return reading ? String(Math.max(1, Math.round(readingGrams(reading) / packageGrams))) : '';
}

/** What the entry is of, in words. */
export function entryName(
  { stage, part, product, primal }: Pick<Entry, 'stage' | 'part' | 'product' | 'primal'>,
  primals: readonly { code: string; name: string }[],
): string {
  if (stage === 'primal' && primal === '') return words.weighStage.primal;
  return weighingName({ stage, part, product, primal: primal || null }, primals);
}
