/** The state of the Table's number entry, and its next step. Pure: the animal's page decides. */
import type { AnimalPage, CutPart, PrimalWeighed } from '../../bridge/contract.ts';
import { readingGrams } from '../../core/values/reading.ts';
import { loadsIn } from '../parts/weight-echo.ts';
import type { Taken } from '../scale/useScaleEntry.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { weighingName } from './weighing-name.ts';

export type EntryStage = 'received' | 'hanging' | 'primal' | 'cut' | 'packed';

export interface Entry {
  stage: EntryStage;
  part: CutPart;
  /** The primal on the scale, or the origin of a part; '' for none. */
  primal: string;
  typed: string;
  /** Set when `typed` came from a scale. */
  taken: Taken | null;
  tare: string;
  product: string;
  /** As typed; empty: the number that the weight implies. */
  count: string;
  place: string;
  /** Id of the weight that is being corrected, or null. */
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

/** Boned meat and pieces are weighed as received; they never hang as a carcass. */
export const inPieces = ({ brought }: Pick<AnimalPage, 'brought'>): boolean =>
  brought !== 'whole' && brought !== 'skinned';

/** The next weight in the usual order. */
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

/** The next received primal that is not completely weighed, after `code`; null when all are. */
export function nextPrimal(primals: readonly PrimalWeighed[], code = ''): string | null {
  const at = primals.findIndex((primal) => primal.code === code);
  const inTurn = [...primals.slice(at + 1), ...primals.slice(0, at + 1)];
  return (
    inTurn.find(({ brought, grams, oneSide }) => brought > 0 && (grams === null || oneSide))?.code ?? null
  );
}

/** Products packed at the table: steaks and roasts, and ground ones too for an animal weighed quickly. */
export function productsToPack({
  detail,
  instructions,
}: Pick<EntryView, 'detail' | 'instructions'>): string[] {
  const { cutsShare, grindProduct, alsoGround } = instructions;
  const ground = cutsShare < 1 ? [...alsoGround.map(({ product }) => product), grindProduct] : [];
  const whole = cutsShare > 0 || ground.length === 0 ? [words.usualProduct.wholeCuts] : [];
  return detail === 'quick' ? [...whole, ...ground] : whole;
}

/** The first of them without packages; the last one if all have some. */
export function nextProduct(page: EntryView, justKept?: string): string {
  const due = productsToPack(page);
  const packed = (product: string): boolean =>
    product === justKept ||
    page.weighings.some((row) => row.stage === 'packed' && row.voided === null && row.product === product);
  return due.find((product) => !packed(product)) ?? due.at(-1) ?? words.usualProduct.wholeCuts;
}

/** The last freezer place of this animal's packages. */
function placeOf({ weighings }: Pick<EntryView, 'weighings'>): string {
  return weighings.findLast((row) => row.voided === null && row.place !== null)?.place ?? '';
}

/**
 * The number of packages that a weight makes, for a visual check; '' without a valid weight.
 * @example packagesIn('24.3', 453.59237, 'lb') // '24'
 */
export function packagesIn(typed: string, packageGrams: number, unit: 'lb' | 'kg'): string {
  const reading = loadsIn(typed, unit);
  return reading ? String(Math.max(1, Math.round(readingGrams(reading) / packageGrams))) : '';
}

/** The description of the entry's current target. */
export function entryName(
  { stage, part, product, primal }: Pick<Entry, 'stage' | 'part' | 'product' | 'primal'>,
  primals: readonly { code: string; name: string }[],
): string {
  if (stage === 'primal' && primal === '') return words.weighStage.primal;
  return weighingName({ stage, part, product, primal: primal || null }, primals);
}
