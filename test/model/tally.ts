/** What was driven: calls by kind, refusals by code. */
import type { Answer, CallName } from '../../src/bridge/contract.ts';

export class Tally {
  readonly calls = new Map<string, { done: number; refused: number }>();
  readonly refusals = new Map<string, number>();
  steps = 0;
  histories = 0;
  desks = 0;
  earliest = Number.POSITIVE_INFINITY;
  latest = Number.NEGATIVE_INFINITY;

  count(call: CallName, answer: Answer<unknown>): void {
    const row = this.calls.get(call) ?? { done: 0, refused: 0 };
    this.calls.set(call, { done: row.done + (answer.ok ? 1 : 0), refused: row.refused + (answer.ok ? 0 : 1) });
    if (!answer.ok) this.refusals.set(answer.problem.code, (this.refusals.get(answer.problem.code) ?? 0) + 1);
  } // prettier-ignore

  sawClock(now: number): void {
    this.earliest = Math.min(this.earliest, now);
    this.latest = Math.max(this.latest, now);
  }

  table(): string {
    const calls = [...this.calls].sort(([, a], [, b]) => b.done + b.refused - a.done - a.refused);
    const refusals = [...this.refusals].sort(([, a], [, b]) => b - a);
    const line = (cells: readonly (string | number)[], wide: readonly number[]): string =>
      cells.map((cell, i) => (i === 0 ? String(cell).padEnd(wide[i] ?? 0) : String(cell).padStart(wide[i] ?? 0))).join(' '); // prettier-ignore
    const day = (moment: number): string => (Number.isFinite(moment) ? new Date(moment).toISOString().slice(0, 10) : '–'); // prettier-ignore
    return [
      `${this.steps} steps in ${this.histories} histories, ${this.desks} desks opened, clocks from ${day(this.earliest)} to ${day(this.latest)}`,
      '',
      line(['call', 'done', 'refused'], [28, 8, 8]),
      ...calls.map(([call, { done, refused }]) => line([call, done, refused], [28, 8, 8])),
      '',
      line(['refused for', 'times'], [36, 8]),
      ...refusals.map(([code, times]) => line([code, times], [36, 8])),
    ].join('\n');
  }
}
