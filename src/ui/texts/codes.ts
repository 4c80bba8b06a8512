/** Names of codes from the desk, which must never be shown themselves. */
import type { Sex } from '../../bridge/contract.ts';

/** The name of a code; without one, the code itself in readable form. */
export function wordFor(table: Readonly<Record<string, string>>, code: string): string {
  return table[code] ?? code.replace(/^./, (letter) => letter.toUpperCase());
}

/** The species' own word: buck, doe, bull, cow, boar … */
export function sexWord(
  wordsOf: { male: string; female: string; young: string },
  sex: Sex,
  age: string,
): string {
  if (age === 'young') return wordsOf.young;
  if (sex === 'unknown') return '';
  return wordsOf[sex];
}
