/** What stands in the tables as a code beside people’s own words, such as `reason:undone`, in words. */
import { text as english } from '../../words/compiled/desk/export.ts';
import type { Language } from '../../words/languages.ts';
import { inLanguage } from '../../words/of-desk.ts';
import { csvLine } from '../../core/values/csv.ts';
import { allNames, keptNames } from '../names/names.ts';
import type { ZipFile } from './zip.ts';

/** Explained by the descriptions of the tables, which name this file. */
export function codesFile(language: Language): ZipFile {
  const text = inLanguage(english, language);
  const said = allNames(language);
  const rows = [...keptNames()].filter(([, kept]) => /^(reason|size):/.test(kept));
  const lines = rows.map(([key, kept]) => csvLine([kept, said.get(key) ?? kept]));
  return { name: 'codes.csv', text: [`\uFEFF${csvLine([text.codes.code, text.codes.meaning])}`, ...lines] };
}
