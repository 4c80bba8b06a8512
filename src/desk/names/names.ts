/** Names of built-in things in each language. The book and the desk say them in English; windows may speak another language. */
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
import type { Slot } from './slots.ts';

export const AREAS = [species, shelf, smokehouse, cautions, records, reasons];

/** Both ways between the English names of built-in things and those of one language. */
export interface Names {
  /**
   * The name in this language of what is called `english`; the text itself if that is none of `slot`, so a shop's own word stands.
   * @param code of the thing, where it is known: two things may share an English name
   */
  said(slot: Slot, english: string, code?: string): string;
  /** The English of a name in this language; the text itself if it is none of `slot`, or may be any of several. */
  meant(slot: Slot, said: string, code?: string): string;
}

const made = new Map<Language, Names>();

/** The names in a language; null for the source language, in which they are kept. */
export function namesIn(language: Language): Names | null {
  if (language === SOURCE_LANGUAGE) return null;
  const names = made.get(language) ?? makeNames(language);
  made.set(language, names);
  return names;
}

/** Every built-in name in a language, by its key in the catalogue. */
export function allNames(language: Language): Map<string, string> {
  return new Map(AREAS.flatMap((area) => [...textsOf(area, language)]));
}

function makeNames(language: Language): Names {
  const english = allNames(SOURCE_LANGUAGE);
  const said = allNames(language);
  return {
    said: withLines(translator(english, said), SOURCE_LANGUAGE, language),
    meant: withLines(translator(said, english), language, SOURCE_LANGUAGE),
  };
}

/** What a line of a bill says of a price line, a product, or a reason is turned with the label around it. */
function withLines(turn: Names['said'], from: Language, to: Language): Names['said'] {
  return (slot, text, code) => {
    if (slot !== 'line') return turn(slot, text, code);
    const inside = (own: string): string =>
      (['price.*', 'product.*', 'reason.*'] as const)
        .map((one) => turn(one, own, code))
        .find((one) => one !== own) ?? own;
    return lineLabelIn(from, to, text, inside) ?? text;
  };
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
