/** Finds animals that occur twice in one file: by the shop's old number, or by tag and day. */
import type { ImportField } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';

type Texts = Partial<Record<ImportField, string>>;
type Doubt = (field: ImportField, problem: ProblemError) => void;

/** Reports a doubt for each row that repeats an earlier one. Old numbers may restart each season. */
export function rowsSeen(): { look(texts: Texts, row: number, doubt: Doubt): void } {
  const first = new Map<string, number>();
  const firstRow = (parts: readonly (string | undefined)[], row: number): number | null => {
    if (parts.some((part) => !part)) return null;
    const key = JSON.stringify(parts).toLowerCase();
    const before = first.get(key);
    if (before === undefined) first.set(key, row);
    return before ?? null;
  };
  return {
    look(texts, row, doubt) {
      const { oldNumber, tag, receivedOn, killDate } = texts;
      const day = receivedOn ?? killDate;
      const year = day?.slice(0, 4) ?? '-';
      const same = (field: ImportField, value: string | undefined, before: number | null): void => {
        if (before !== null)
          doubt(field, new ProblemError('conflict', 'sheet.twice', { with: { said: value ?? '', before } }));
      };
      same('oldNumber', oldNumber, firstRow(['number', oldNumber, year], row));
      same('tag', tag, firstRow(['tag', tag, day], row));
    },
  };
}
