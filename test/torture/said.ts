/** What a writer says of each answer that it had from the desk. */
export type Entry =
  | { kind: 'animal'; id: number; ticket: string; hunter: string; log: number }
  | { kind: 'payment'; id: number; minor: number; log: number }
  | { kind: 'void'; id: number; log: number }
  | { kind: 'weighing'; id: number; typed: string; log: number };

export type Said = Entry | { kind: 'open'; trouble: string | null } | { kind: 'refused'; code: string };

/** The whole lines of what a writer said; the last one may have been cut short with it. */
export function linesOf(text: string): Said[] {
  return text
    .split('\n')
    .slice(0, -1)
    .map((line) => JSON.parse(line) as Said);
}

export function entriesOf(said: readonly Said[]): Entry[] {
  return said.filter((one): one is Entry => one.kind !== 'open' && one.kind !== 'refused');
}
