/**
 * Messages for calculations that the core refuses. They appear only if figures in the book are far out of range, so
 * codes of one kind share a message: which calculation failed, and what to check.
 */
import type { Wording } from '../../wording.ts';

const NUMBER = 'One of the numbers is not possible. Check what was typed last and type it again.';
const BALANCE =
  'The weights of this animal cannot be added up. Look through its weighings at the Table and void what is wrong.';
const BLEND =
  'This blend cannot be worked out as it stands. Check the weights and the target, or pick fewer animals.';
const YIELD =
  'What to expect cannot be worked out from these weights. Check species, how it came in and the weight.';
const TESTS = 'The fat tests cannot be compared. Check the tests and the weights of their batches.';
const SHARES = 'The packages cannot be shared out. Check that trim of each animal was weighed in.';
const COOLER = 'This cooler reading cannot be right. Check the day, the time and the temperature.';
const DAYS = 'These days cannot be. Check the date, and the hanging days in Shop.';
const OURS =
  'Gambrel worked itself into a corner, and it is not your fault. Nothing was changed. Try again; if it stays, restart Gambrel.';

const shared: Readonly<Record<string, readonly string[]>> = {
  [NUMBER]: [
    'amount.negative', 'amount.not-positive', 'grams.negative', 'grams.not-positive', 'money.not-whole',
    'number.too-large', 'probability.out-of-range', 'range.reversed', 'sd.not-positive', 'share.out-of-range',
    'step.not-positive', 'spread.below-one', 'spread.negative', 'spread.too-few', 'tolerance.not-positive', 'degrees.not-positive',
  ],
  [BALANCE]: [
    'balance.id-twice', 'balance.same-ends', 'balance.sd-spread', 'balance.too-many-flows', 'balance.unknown-node',
    'flow.negative', 'hanging.received', 'weighing.of-nothing',
  ],
  [BLEND]: [
    'blend.no-size', 'blend.solver', 'blend.too-long', 'blend.unproven', 'id.duplicate', 'id.empty', 'sources.empty',
    'sources.too-many',
  ],
  [YIELD]: [
    'yield.brought', 'yield.draws', 'yield.group', 'yield.level', 'yield.no-profiles', 'yield.parts-exceed',
    'yield.prior', 'yield.prior-spread', 'yield.share', 'yield.species-needed', 'yield.species-unknown',
    'yield.spread', 'yield.stage', 'yield.weight',
  ],
  [TESTS]: [
    'estimates.empty', 'chart.too-few', 'fat.certain', 'fat.unknown-source', 'parts.empty',
  ],
  [SHARES]: ['total.negative', 'total.not-whole', 'weights.all-zero', 'weights.empty', 'weights.negative'],
  [COOLER]: ['cooler.limit', 'cooler.moment', 'cooler.temperature'],
  [DAYS]: ['date.days-not-whole', 'date.month', 'date.out-of-range', 'hanging.days', 'hanging.limits'],
  [OURS]: ['random.seed', 'random.shape', 'resources.own-fat', 'desk.broken', 'desk.failed'],
}; // prettier-ignore

export const sumsWording: Readonly<Record<string, Wording>> = {
  ...Object.fromEntries(
    Object.entries(shared).flatMap(([sentence, codes]) => codes.map((code) => [code, () => sentence])),
  ),
  'money.unknown-currency': (p) =>
    `“${p.currency}” is no currency. Put its three letters into Shop, for example USD or CAD.`,
};
