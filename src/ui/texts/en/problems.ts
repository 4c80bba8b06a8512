/** Messages for every problem code of the desk: what is wrong and how to fix it. */
import type { Problem } from '../../../bridge/contract.ts';
import type { Format } from '../format.ts';
import { words, wordFor } from './common.ts';
import { leavingWording } from './problems/leaving.ts';
import { importWording } from './problems/import.ts';
import { belongingWording } from './problems/belongings.ts';
import { bookWording } from './problems/book.ts';
import { carrierWording } from './problems/carrier.ts';
import { choiceWording } from './problems/choices.ts';
import { correctionWording } from './problems/corrections.ts';
import { moneyWording } from './problems/money.ts';
import { recordWording } from './problems/record.ts';
import { scaleWording } from './problems/scale.ts';
import { shelfWording } from './problems/shelf.ts';
import { shareWording } from './problems/shares.ts';
import { sumsWording } from './problems/sums.ts';
import { tradeWording } from './problems/trade.ts';
import { plural } from '../plural.ts';
import { massIn, type With, type Wording } from '../wording.ts';
import { typedWithUnit } from '../typed.ts';

const part = (parameters: With): string =>
  (parameters.primal === undefined
    ? wordFor(words.part, String(parameters.part ?? 'this part'))
    : String(parameters.primal)
  ).toLowerCase();
/** Possible causes of an inconsistent weight, where the desk has a guess. */
const meant = ({ likely, slip }: With, format: Format): string => {
  if (slip === 'weighed-twice') return ' The same weight is entered already. Was it weighed twice?';
  if (slip === 'other-animal') return ' Does it belong to another animal?';
  if (!likely) return '';
  const typed = typedWithUnit(String(likely), format.unit);
  return slip === 'tare-left-in'
    ? ` Was the container weighed with it? Then it is ${typed}.`
    : ` Did you mean ${typed}?`;
};

export const problemWording: Readonly<Record<string, Wording>> = {
  'reading.empty': (_, format) => `Type a weight, for example 18.62 or 18.62 ${format.unit}.`,
  'reading.unreadable': (p) =>
    `“${p.typed}” is not a weight. Type a number, with a unit if you like: 18.62, 18 lb 10 oz, 8.4 kg.`,
  'reading.ambiguous': (p) => `“${p.typed}” can be read two ways. Type ${p.whole} or ${p.decimal}.`,
  'reading.odd-digit': (p) => `“${p.typed}”: ${p.digit} is no plain digit. Type it with 0 to 9.`,
  'reading.fraction': (p) =>
    `“${p.typed}”: a fraction is read in halves, quarters, eighths or sixteenths, as in 18 1/2. Type anything else with a decimal point.`,
  'reading.negative': () =>
    'A weight cannot be below zero. Leave out the minus; use Undo to take a weight back.',
  'reading.zero': () => 'The scale shows nothing. Type the weight, or leave this part out.',
  'reading.too-fine': (p) => `“${p.typed}” has more decimals than any scale shows. Leave some off.`,
  'reading.too-heavy': (p) =>
    `“${p.typed}” is heavier than anything on the rail. Check the decimal point and the unit.`,
  'reading.loads-mixed': (p) => `“${p.typed}” adds pounds and kilograms. Type every load in the same unit.`,
  'reading.ounces': (p) => `“${p.typed}”: a pound has 16 ounces. Type fewer than 16 oz after the pounds.`,
  'weight.more-than-animal': (p, format) =>
    `${massIn(p, 'grams', format)} is more than the whole animal (${wordFor(words.weighStage, String(p.base)).toLowerCase()} ${massIn(p, 'baseGrams', format)}). Weigh again, or correct that weight first.${meant(p, format)}`,
  'weight.unlikely': (p, format) =>
    p.part === 'pieces'
      ? `${massIn(p, 'grams', format)} is hardly possible for what came in of such an animal: it weighs ${format.massRange(Number(p.low), Number(p.high))}.${meant(p, format)}`
      : p.part === 'carcass'
        ? `${massIn(p, 'grams', format)} is hardly possible for such an animal: it weighs ${format.massRange(Number(p.low), Number(p.high))}.${meant(p, format)}`
        : p.part === 'hook'
          ? `${massIn(p, 'grams', format)} is unusual: of ${massIn(p, 'baseGrams', format)} that came in, such an animal mostly hangs at ${format.massRange(Number(p.low), Number(p.high))} by now.${meant(p, format)}`
          : `${massIn(p, 'grams', format)} of ${part(p)} is unusual: such an animal mostly has ${format.massRange(Number(p.low), Number(p.high))}.${meant(p, format)}`,
  'weight.over': (p, format) =>
    `With ${massIn(p, 'grams', format)} the ${p.part === 'package' ? 'packages' : 'parts'} weigh ${massIn(p, 'overGrams', format)} more than the animal.${meant(p, format)}`,
  'weight.same-again': (p, format) =>
    `${massIn(p, 'grams', format)} was kept ${plural(Number(p.seconds), 'second', 'seconds')} ago. Is this a second one of the same weight?`,
  'weight.hung-again': (p, format) =>
    Number(p.count) === 1
      ? `It already has a hanging weight of ${massIn(p, 'grams', format)}. Is this the same ${p.part === 'pieces' ? 'piece' : 'carcass'}, weighed again?`
      : `It already has ${Number(p.count)} hanging weights, ${massIn(p, 'grams', format)} together. Add this one only if it is another ${p.part === 'pieces' ? 'piece' : 'side'}; if one was weighed again, press Correct beside its old weight.`,
  ...tradeWording,
  ...choiceWording,
  ...belongingWording,
  ...shareWording,
  ...leavingWording,
  ...correctionWording,
  ...shelfWording,
  ...sumsWording,
  ...recordWording,
  ...scaleWording,
  ...moneyWording,
  ...importWording,
  ...carrierWording,
  ...bookWording,
  'number.not-finite': () => 'That is not a number. Type it again.',
  'number.not-whole': () => 'That is not a whole number. Type it again.',
  'input.not-a-number': () => 'One of the numbers cannot be read. Type it again.',
  'input.invalid': () => 'Something was left out here. Fill in what is missing and try again.',
};

/** Fallback messages by kind, each with the next step. */
export const kindWording: Readonly<Record<Problem['kind'], string>> = {
  invalid: 'Something here cannot be right. Check what was typed and try again.',
  conflict: 'This does not fit what is in the book. Look again before keeping it.',
  missing: 'That is not in the book. It may have been removed, or the number was mistyped.',
  refused: 'That is not allowed as things stand.',
  broken:
    'Gambrel could not do that, and it is not your fault. Nothing was changed. Try again; if it stays, restart Gambrel.',
};

/** Names of fields on screen, for problems that name only the field. */
export const fieldNames: Readonly<Record<string, string>> = {
  typed: 'weight',
  tareTyped: 'container weight',
  hunter: 'hunter',
  name: 'name',
  phone: 'phone number',
  species: 'species',
  sex: 'sex',
  age: 'age',
  brought: 'brought as',
  parts: 'parts',
  killDate: 'kill date',
  receivedOn: 'date received',
  promisedOn: 'date promised',
  recordFields: 'what an entry must have',
  retentionYears: 'years of keeping',
  lateDays: 'days until late',
  reason: 'reason',
  ticket: 'ticket',
  shopName: 'name of the shop',
  count: 'count of packages',
  targetFat: 'target fat',
  packageGrams: 'package size',
  cutsShare: 'share kept as cuts',
  initials: 'initials',
  many: 'name of several',
  like: 'relative',
  male: 'word for a male',
  female: 'word for a female',
  young: 'word for a young one',
  ingredients: 'what else is in it',
};
