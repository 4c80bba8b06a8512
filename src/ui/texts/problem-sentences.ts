/** The sentence of each problem code of desk, core and carrier. */
import { keysOf, messageOf } from '../../words/area.ts';
import { text as animals } from '../../words/compiled/problems/animals.ts';
import { text as batches } from '../../words/compiled/problems/batches.ts';
import { text as book } from '../../words/compiled/problems/book.ts';
import { text as carrier } from '../../words/compiled/problems/carrier.ts';
import { text as importing } from '../../words/compiled/problems/import.ts';
import { text as input } from '../../words/compiled/problems/input.ts';
import { text as money } from '../../words/compiled/problems/money.ts';
import { text as photos } from '../../words/compiled/problems/photos.ts';
import { text as records } from '../../words/compiled/problems/records.ts';
import { text as scale } from '../../words/compiled/problems/scale.ts';
import { text as shelf } from '../../words/compiled/problems/shelf.ts';
import { text as smokehouse } from '../../words/compiled/problems/smokehouse.ts';
import { text as stations } from '../../words/compiled/problems/stations.ts';
import { text as sums } from '../../words/compiled/problems/sums.ts';
import { text as weights } from '../../words/compiled/problems/weights.ts';
import type { Message } from '../../words/speech.ts';

const AREAS = [
  weights,
  animals,
  batches,
  input,
  records,
  shelf,
  money,
  importing,
  carrier,
  book,
  scale,
  smokehouse,
  stations,
  photos,
  sums,
];

/**
 * Codes that share a sentence: which calculation failed, or what became of the connection. Those of calculations appear
 * only if figures in the book are far out of range.
 */
const SHARED: readonly [area: object, key: string, codes: readonly string[]][] = [
  [sums, 'number', [
    'amount.negative', 'amount.not-positive', 'grams.negative', 'grams.not-positive', 'money.not-whole',
    'number.too-large', 'probability.out-of-range', 'range.reversed', 'sd.not-positive', 'share.out-of-range',
    'step.not-positive', 'spread.below-one', 'spread.negative', 'spread.too-few', 'tolerance.not-positive', 'degrees.not-positive',
    'brine.empty', 'composition.above-whole', 'composition.all-fat', 'composition.all-water', 'composition.no-protein',
    'composition.wetter', 'cure.without-agent', 'figures.none', 'finished.below-fat', 'gap.not-positive', 'grams.too-heavy',
    'hours.negative', 'loss.assumption', 'minutes.negative', 'ppm.range', 'steps.empty', 'trim.none', 'yield.order',
  ]],
  [sums, 'balance', [
    'balance.id-twice', 'balance.same-ends', 'balance.sd-spread', 'balance.too-many-flows', 'balance.unknown-node',
    'flow.negative', 'hanging.received', 'weighing.of-nothing',
  ]],
  [sums, 'blend', [
    'blend.no-size', 'blend.solver', 'blend.too-long', 'blend.unproven', 'id.duplicate', 'id.empty', 'sources.empty',
    'sources.too-many',
  ]],
  [sums, 'yield', [
    'yield.brought', 'yield.draws', 'yield.group', 'yield.level', 'yield.no-profiles', 'yield.parts-exceed',
    'yield.prior', 'yield.prior-spread', 'yield.share', 'yield.species-needed', 'yield.species-unknown',
    'yield.spread', 'yield.stage', 'yield.weight',
  ]],
  [sums, 'tests', ['estimates.empty', 'chart.too-few', 'fat.certain', 'fat.unknown-source', 'parts.empty']],
  [sums, 'shares', ['total.negative', 'total.not-whole', 'weights.all-zero', 'weights.empty', 'weights.negative']],
  [sums, 'cooler', ['cooler.limit', 'cooler.moment', 'cooler.temperature']],
  [sums, 'days', ['date.days-not-whole', 'date.month', 'date.out-of-range', 'hanging.days', 'hanging.limits']],
  [sums, 'ours', ['random.seed', 'random.shape', 'resources.own-fat', 'resources.heat', 'resources.recipes', 'desk.broken', 'desk.failed']],
  [photos, 'again', [
    'photo.no-picture', 'photo.too-large', 'photo.not-bare', 'photo.other-digest', 'photo.not-here', 'photo.waiting',
  ]],
  [photos, 'changed', ['photo.unknown', 'photo.voided', 'photo.not-voided']],
  [photos, 'file', ['photo.missing', 'photo.altered']],
  [carrier, 'noAccess', [
    'desk.no-session', 'session.unknown', 'session.wrong-code', 'session.too-many', 'session.other-account',
    'request.wrong-host', 'request.wrong-origin',
  ]],
  [carrier, 'notWhole', ['request.malformed', 'request.not-json', 'request.too-slow', 'input.not-plain']],
  [carrier, 'oldWindow', ['call.unknown', 'request.wrong-method', 'request.too-long']],
]; // prettier-ignore

const places: ReadonlyMap<string, readonly [area: object, key: string]> = new Map([
  ...AREAS.flatMap((area) =>
    keysOf(area)
      .filter((key) => key.includes('.'))
      .map((key) => [key, [area, key]] as const),
  ),
  ...SHARED.flatMap(([area, key, codes]) => codes.map((code) => [code, [area, key]] as const)),
]);

/** Every code that has a sentence of its own. */
export const problemCodes: readonly string[] = [...places.keys()];

/** The message of a code in the current language. */
export function sentenceOf(code: string): Message | undefined {
  const place = places.get(code);
  return place && messageOf(...place);
}
