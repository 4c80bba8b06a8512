/** What the sentence of a problem needs besides the parameters that came with it. */
import type { Problem } from '../../bridge/contract.ts';
import { wordFor } from './codes.ts';
import { text as words } from '../../words/compiled/shared/common.ts';
import { text as belongings } from '../../words/compiled/window/belongings.ts';
import { text as smokehouse } from '../../words/compiled/window/smokehouse.ts';
import { text as smokehouseLoad } from '../../words/compiled/window/smokehouse-load.ts';
import { lotLabel } from './part-label.ts';
import { methodName } from './payment-methods.ts';
import { readySentences } from './ready-sentences.ts';
import { listText } from '../../words/list.ts';
import type { Format } from './format.ts';

type With = NonNullable<Problem['with']>;

/** The least typical weight of a species, g (desk, `species.weights`). */
const LEAST_SPECIES = 1500;
/** How many tickets are named before the rest is counted (desk, `currency.accounts-open`). */
const NAMED = 5;

const part = ({ part: code, primal }: With): string => String(primal ?? wordFor(words.part, String(code)));

const lot = ({ ticket, fatName, lotCode }: With): { lot: string } => ({
  lot: lotLabel({
    ticket: ticket ? String(ticket) : null,
    fatName: String(fatName),
    lotCode: String(lotCode),
  }),
});

/** Weights as they were typed, where the desk says so. */
function weights({ said, grams, baseSaid, baseGrams }: With, format: Format): object {
  const of = (typed: unknown, mass: unknown): string =>
    typeof typed === 'string' ? typed : format.mass(Number(mass ?? 0));
  return { weight: of(said, grams), baseWeight: of(baseSaid, baseGrams) };
}

/** So many seconds are said as minutes. */
const SAID_IN_SECONDS = 120;
const timeHeld = (seconds: number): string =>
  seconds < SAID_IN_SECONDS
    ? smokehouseLoad.inSeconds({ n: Math.floor(seconds) })
    : smokehouseLoad.inMinutes({ n: Math.floor(seconds / 60) });
const dwell = ({ need, seconds }: With): { needed: string; held: string } => ({
  needed:
    Number(need) < SAID_IN_SECONDS ? timeHeld(Number(need)) : timeHeld(Math.ceil(Number(need) / 60) * 60),
  held: timeHeld(Number(seconds)),
});

const belonging = ({ kind }: With): { kind: string } => ({ kind: wordFor(belongings.kinds, String(kind)) });

const DERIVED: Readonly<Record<string, (given: With, format: Format) => object>> = {
  'reading.empty': (_, { unit }) => ({ unit }),
  'weight.more-than-animal': (given, format) => ({
    ...weights(given, format),
    base: wordFor(words.weighStage, String(given.base)),
  }),
  'weight.over': weights,
  'weight.hung-again': weights,
  'weight.unlikely': (given, format) => ({
    ...weights(given, format),
    name: part(given),
    range: format.massRange(Number(given.low), Number(given.high)),
  }),
  'dwell.not-shown': dwell,
  'dwell.short': dwell,
  'belonging.gone': belonging,
  'belonging.here': belonging,
  // The desk joins their codes.
  'release.belongings': ({ kinds }) => ({
    kinds: listText(
      String(kinds)
        .split(', ')
        .map((kind) => wordFor(belongings.kinds, kind)),
    ),
  }),
  'cure.wrong-class': ({ stated, derived }) => ({
    stated: wordFor(smokehouse.classes, String(stated)),
    derived: wordFor(smokehouse.classes, String(derived)),
  }),
  'fat.not-enough': lot,
  'fat.none-left': lot,
  'fat.more-than-came': lot,
  'fat.as-counted': lot,
  'none.weighed': (given) => ({ name: part(given) }),
  'none.stated': (given) => ({ name: part(given) }),
  'sheet.none-of': ({ what }) => ({ name: wordFor(words.part, String(what)) }),
  'sheet.year': ({ date }) => ({ year: String(date).slice(0, 4) }),
  'ready.amounts': (given, format) => ({ doubts: readySentences(given, format) }),
  'species.weights': () => ({ lowest: LEAST_SPECIES }),
  'currency.accounts-open': ({ count }) => ({ more: Math.max(0, Number(count) - NAMED) }),
  'till.note': ({ overMinor }) => ({ diff: Math.abs(Number(overMinor)), over: Number(overMinor) > 0 }),
  'till.changed-method': ({ method }) => ({ name: methodName(String(method)) }),
};

/** All values of a problem's sentence. */
export function problemValues({ code, with: given = {} }: Problem, format: Format): object {
  return { ...given, ...DERIVED[code]?.(given, format) };
}
