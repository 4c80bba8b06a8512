import type { AnimalPage } from '../../../bridge/contract.ts';
import { hasLeft } from '../../../trade/animal.ts';
import { productsToPack, type EntryStage } from '../../weighing/entry.ts';
import { text } from '../../../words/compiled/window/table.ts';
import type { Going } from './useStep.ts';

/** A stage that an animal can go to now. */
export interface Way {
  to: Going;
  label: string;
  back?: boolean;
}

/** On hold and not to be cut before the result: only moving back is possible. */
export const waitsForResult = ({ hold }: Pick<AnimalPage, 'hold'>, cutWhileHeld: boolean): boolean =>
  hold !== null && (hold.positive || !cutWhileHeld);

/**
 * The steps of an animal, the next one first. After being ground together with held meat, every step but ready is
 * possible.
 * @param weighs the stage of the number entry: packages weighed at the table can be ready without another step
 */
export function waysOf(page: AnimalPage, cutWhileHeld: boolean, weighs: EntryStage): Way[] {
  const held = waitsForResult(page, cutWhileHeld);
  const waits = !hasLeft(page) && page.waitsFor.length > 0;
  return allWays(page, weighs).filter(({ to, back }) => back || !(held || (to === 'ready' && waits)));
}

function allWays(page: AnimalPage, weighs: EntryStage): Way[] {
  const ready: Way = { to: 'ready', label: text.ready };
  const packed = page.packages.length > 0;
  switch (page.stage) {
    case 'hanging':
      return [...(packed ? [ready] : []), { to: 'cutting', label: text.steps.take }];
    case 'cutting':
      return [...(packed && weighs === 'packed' ? [ready] : []), { to: 'packing', label: text.steps.cut }];
    case 'packing':
      return [ready, { to: 'cutting', label: text.steps.backToTable, back: true }];
    case 'ready':
      return [{ to: 'packing', label: text.steps.backToPacking, back: true }];
    default:
      return [];
  }
}

/** Whether R at the empty entry sets the animal ready: packages are being weighed, and nothing holds it. */
export const readyByKey = (page: AnimalPage, weighs: EntryStage): boolean =>
  weighs === 'packed' &&
  page.packages.length > 0 &&
  page.stage !== 'ready' &&
  page.hold === null &&
  page.waitsFor.length === 0;

/** Whether the next stage comes before the next weight, so that its button is the filled one. */
export function stepComesFirst(page: AnimalPage, weighs: EntryStage): boolean {
  if (page.stage === 'ready') return true;
  if (page.stage === 'hanging' && weighs !== 'packed')
    return weighs !== 'hanging' && weighs !== 'received' && page.ladder !== null;
  const packed = (product: string): boolean => page.packages.some((pack) => pack.product === product);
  return readyByKey(page, weighs) && productsToPack(page).every(packed);
}
