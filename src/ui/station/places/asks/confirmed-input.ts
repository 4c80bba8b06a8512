/** What is sent after a person said yes to the desk's question about an entry. Pure. */
import type { Problem } from '../../../../bridge/contract.ts';

/** Questions that a yes answers by naming them: the entry goes again with their codes. */
const BY_CODE: readonly string[] = [
  'date.long-ago',
  'date.far-ahead',
  'date.killed-long-before',
  'release.belongings',
];
/** Questions that are answered in words, with the field for them: why amounts differ, or who lets it go unpaid. */
const IN_WORDS: Readonly<Record<string, string>> = {
  'ready.amounts': 'answer',
  'batch.more-out': 'reason',
  'release.no-bill': 'unpaidBy',
  'release.unpaid': 'unpaidBy',
  'release.unpaid-floor': 'unpaidBy',
};
/** Those that a yes confirms besides. */
const BY_YES: readonly string[] = [
  'weight.unlikely',
  'weight.over',
  'weight.same-again',
  'weight.hung-again',
  'made.unlike',
  'ready.amounts',
  'batch.more-out',
];

/** The field for the words that the desk asks for; null if a yes is enough. */
export const wordsField = ({ code }: Problem): string | null => IN_WORDS[code] ?? null;

/**
 * The input with the question answered by yes; null for a problem that no yes answers, such as a weight that somebody
 * voided meanwhile.
 * @param said the words for `wordsField`
 */
export function confirmedInput(input: object, problem: Problem, said = ''): object | null {
  const { code } = problem;
  const field = wordsField(problem);
  const spoken = field === null ? input : { ...input, [field]: said };
  const before: unknown[] | null =
    'confirmed' in input && Array.isArray(input.confirmed) ? input.confirmed : null;
  // An intake names its doubts one by one, of its weights too; elsewhere a weight is confirmed by yes.
  if (BY_CODE.includes(code) || (before && BY_YES.includes(code)))
    return { ...spoken, confirmed: [...(before ?? []), code] };
  if (BY_YES.includes(code)) return { ...spoken, confirmed: true };
  return field === null ? null : spoken;
}
