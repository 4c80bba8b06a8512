/**
 * Names of built-in things in each language. The book and the desk say them in English; windows may speak another language. What the
 * program offers beside a person's own words, such as a reason, is kept as a code and is a word only in a window.
 */
import { textsOf } from '../../words/area.ts';
import { text as cautions } from '../../words/compiled/desk/names/cautions.ts';
import { text as reasons } from '../../words/compiled/desk/names/reasons.ts';
import { text as records } from '../../words/compiled/desk/names/records.ts';
import { text as shelf } from '../../words/compiled/desk/names/shelf.ts';
import { text as smokehouse } from '../../words/compiled/desk/names/smokehouse.ts';
import { text as species } from '../../words/compiled/desk/names/species.ts';
import { SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';
import '../../words/of-desk.ts';
import { lineLabelIn } from './line-labels.ts';
import { LINE, type Slot } from './slots.ts';

export const AREAS = [species, shelf, smokehouse, cautions, records, reasons];

/** Both ways between built-in things as they are kept, by English name or code, and their names in one language. */
export interface Names {
  /**
   * The name in this language of what is kept as `kept`; the text itself if that is none of `slot`, so a shop's own word stands.
   * @param code of the thing, where it is known: two things may share an English name
   */
  said(slot: Slot, kept: string, code?: string): string;
  /** What a name in this language is kept as; the text itself if it is none of `slot`, or may be any of several. */
  meant(slot: Slot, said: string, code?: string): string;
}

/** Kept as their key in the catalogue with a colon: `reason:undone`. */
const CODED = /^(reason|size)\./;

const made = new Map<Language, Names>();

export function namesIn(language: Language): Names {
  const names = made.get(language) ?? makeNames(language);
  made.set(language, names);
  return names;
}

/** Every built-in name in a language, by its key in the catalogue. */
export function allNames(language: Language): Map<string, string> {
  return new Map(AREAS.flatMap((area) => [...textsOf(area, language)]));
}

/** What the book keeps for each built-in name, by its key in the catalogue. */
export function keptNames(): Map<string, string> {
  const english = allNames(SOURCE_LANGUAGE);
  return new Map([...english].map(([key, name]) => [key, CODED.test(key) ? key.replace('.', ':') : name]));
}

function makeNames(language: Language): Names {
  const kept = keptNames();
  const english = allNames(SOURCE_LANGUAGE);
  const said = allNames(language);
  return {
    said: withLines(translator(kept, said), translator(english, said), SOURCE_LANGUAGE, language),
    meant: withLines(translator(said, kept), translator(said, english), language, SOURCE_LANGUAGE),
  };
}

/**
 * What a line of a bill says of a price line, a product, or a reason is turned with the label around it. A label is kept as it was
 * printed in English, also the reason in it.
 */
function withLines(
  turn: Names['said'],
  turnInLabel: Names['said'],
  from: Language,
  to: Language,
): Names['said'] {
  return (slot, text, code) => {
    if (slot !== 'line') return turn(slot, text, code);
    if (from === to) return text;
    const inside = (own: string): string =>
      (['price.*', 'product.*', 'reason.*'] as const)
        .map((one) => turnInLabel(one, own, code))
        .find((one) => one !== own) ?? own;
    return lineLabelIn(from, to, text, inside) ?? text;
  };
}

/** A reason as the book keeps it, in words; a person's own as they are. @example reasonIn('en-US', 'reason:undone') // 'undone' */
export function reasonIn(language: Language, kept: string): string {
  return namesIn(language).said('reason.*', kept);
}

/** The label of a line of a bill in a language. @example lineIn('es-MX', 'Grinding') // 'Molienda' */
export function lineIn(language: Language, label: string): string {
  const { said } = namesIn(language);
  return LINE.map((slot) => said(slot, label)).find((one) => one !== label) ?? label;
}

type ByText = Map<string, string | null>;

/** A text that stands for several others is translated only where the code decides. */
function translator(from: ReadonlyMap<string, string>, to: ReadonlyMap<string, string>): Names['said'] {
  const bySlot = new Map<string, ByText>();
  for (const [key, text] of from) {
    const slot = slotOfKey(key);
    const texts = bySlot.get(slot) ?? new Map<string, string | null>();
    bySlot.set(slot, texts);
    const other = to.get(key) ?? text;
    texts.set(text, texts.has(text) && texts.get(text) !== other ? null : other);
  }
  return (slot, text, code) => {
    const key = code === undefined ? '' : slot.replace('*', code);
    if (from.get(key) === text) return to.get(key) ?? text;
    return bySlot.get(slot)?.get(text) ?? text;
  };
}

/** @example slotOfKey('species.elk.name') // 'species.*.name' */
function slotOfKey(key: string): string {
  return key.replace(/^(\w+)\.[^.]+/, '$1.*');
}
