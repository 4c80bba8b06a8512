/** What is sent after a person said yes to the desk's question about an entry. Pure. */
import type { Problem } from '../../../../bridge/contract.ts';

/** Questions that a yes answers by naming them: the entry goes again with their codes. */
const BY_CODE: readonly string[] = [
  'date.long-ago',
  'date.far-ahead',
  'date.killed-long-before',
  'release.belongings',
];
/** Questions that need a sentence besides, and the field of it. */
const WITH_REASON: Readonly<Record<string, string>> = {
  'ready.amounts': 'answer',
  'batch.more-out': 'reason',
};
const BY_YES: readonly string[] = [
  'weight.unlikely',
  'weight.over',
  'weight.same-again',
  'weight.hung-again',
  'made.unlike',
  ...Object.keys(WITH_REASON),
];

/** The field for the sentence that the desk asks for; null if a yes is enough. */
export const reasonField = ({ code }: Problem): string | null => WITH_REASON[code] ?? null;

/**
 * The input with the question answered by yes; null for a problem that no yes answers, such as a weight that somebody
 * voided meanwhile.
 * @param why the sentence for `reasonField`
 */
export function confirmedInput(input: object, problem: Problem, why = ''): object | null {
  const { code, kind } = problem;
  if (kind !== 'conflict') return null;
  const field = reasonField(problem);
  if (field !== null) return { ...input, [field]: why, confirmed: true };
  if (BY_YES.includes(code)) return { ...input, confirmed: true };
  if (!BY_CODE.includes(code)) return null;
  const before = 'confirmed' in input && Array.isArray(input.confirmed) ? (input.confirmed as unknown[]) : [];
  return { ...input, confirmed: [...before, code] };
}
