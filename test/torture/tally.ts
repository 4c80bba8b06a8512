/** What a kind of round came to. */
export interface Tally {
  name: string;
  rounds: number;
  /** Entries that the desk acknowledged. */
  entries: number;
  lost: number;
  /** Books that were refused and came back from a backup. */
  restored: number;
  /** Books that neither opened nor led back. */
  stuck: number;
  /** Books that opened but were not whole, or other than they were left. */
  wrong: number;
  /** Further figures of this kind of round. */
  notes: string[];
}

export function tally(name: string): Tally {
  return { name, rounds: 0, entries: 0, lost: 0, restored: 0, stuck: 0, wrong: 0, notes: [] };
}

export function failed(all: readonly Tally[]): boolean {
  return all.some(({ lost, stuck, wrong }) => lost + stuck + wrong > 0);
}

/** The table of figures, as text for a terminal. */
export function tableOf(all: readonly Tally[]): string {
  const titles = ['rounds of', 'rounds', 'acknowledged', 'lost', 'came back', 'no way back', 'not whole'];
  const rows = all.map((one) =>
    [one.name, one.rounds, one.entries, one.lost, one.restored, one.stuck, one.wrong].map(String),
  );
  const widths = titles.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]?.length ?? 0)));
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0)))
      .join('  ');
  const notes = all.flatMap(({ name, notes }) => notes.map((note) => `${name}: ${note}`));
  return [line(titles), ...rows.map(line), ...notes].join('\n');
}
