/** Texts that are read as pages: the handbook, and what the trade's words mean. They are fetched when one is opened. */
import type { Language } from '../../words/languages.ts';

const files = import.meta.glob<string>('../../words/compiled/handbook/pages/*.json', {
  query: '?url',
  import: 'default',
  eager: true,
});

/** By their keys in `handbook/pages.arb`. @throws Error when the file cannot be fetched */
export async function fetchTexts(language: Language): Promise<Readonly<Record<string, string>>> {
  const file = Object.entries(files).find(([path]) => path.endsWith(`/${language}.json`))?.[1];
  const response = await fetch(file ?? '');
  if (!file || !response.ok) throw new Error(`The texts in ${language} are missing.`);
  return (await response.json()) as Readonly<Record<string, string>>;
}
