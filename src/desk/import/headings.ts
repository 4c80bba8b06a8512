import { text as english } from '../../words/compiled/desk/export.ts';
import { languages, type Language } from '../../words/languages.ts';
import { inLanguage } from '../../words/of-desk.ts';
import { folded, type FieldRule } from './fields.ts';

/** For each heading of our exports, in small letters: what the same column is called in English. */
const known = new Map<string, string[]>();
for (const language of Object.keys(languages) as Language[]) {
  for (const [code, heading] of Object.entries(inLanguage(english, language).heading)) {
    const said = folded(english.heading[code as keyof typeof english.heading]);
    known.set(folded(heading), [...(known.get(folded(heading)) ?? []), said]);
  }
}

/**
 * Whether a folded heading names a field: by its usual names in English, or as an export in any language of the
 * program heads that column.
 */
export function isHeadingOf({ heading }: FieldRule, name: string): boolean {
  return heading.test(name) || (known.get(name) ?? []).some((said) => heading.test(said));
}
