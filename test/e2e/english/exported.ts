/** What files for others say: tables, what their codes mean, and the accountant's journal. */
import { parse } from 'csv-parse/sync';
import { strFromU8, unzipSync } from 'fflate';
import type { Language } from '../../../src/words/languages.ts';
import type { deskLine } from '../desk-line.ts';

type Call = Awaited<ReturnType<typeof deskLine>>;

/** Codes that a program reads, as the files' own descriptions say; `tables/` holds the book as it is stored. */
const CODES = ['type', 'method', 'section', 'code', 'código'];
const OF_PROGRAMS = /^tables\/|^photos\//;

/** Every cell of them with words for people, headings included, and the text that explains them. */
export async function exportedTexts(call: Call, language: Language): Promise<string[]> {
  const archive = unzipSync(await fileOf(call, await call('export.create', { what: 'tables', language })));
  const tables = Object.entries(archive).flatMap(([name, file]) => {
    if (OF_PROGRAMS.test(name)) return [];
    return name.endsWith('.csv') ? cellsOf(strFromU8(file)) : [name];
  });
  const span = { from: '2026-09-01', to: '2026-12-31', language };
  const books: Buffer[] = [];
  for (const what of ['journal', 'summary'] as const)
    books.push(await fileOf(call, await call('till.exportJournal', { what, ...span })));
  const journal = books.flatMap((file) => cellsOf(file.toString('utf8')));
  return [...new Set([...tables, ...journal])].filter(Boolean);
}

/** Columns of the accountant's files have names for programs, in lower case. */
function cellsOf(csv: string): string[] {
  const [head = [], ...rows] = parse(csv, { bom: true, relax_column_count: true }) as string[][];
  const isForPrograms = head.every((name) => name === name.toLowerCase());
  const isCode = head.map((name) => CODES.includes(name.toLowerCase()));
  return [...(isForPrograms ? [] : head), ...rows.flatMap((row) => row.filter((_, at) => !isCode[at]))];
}

/** An export, fetched piece by piece. */
export async function fileOf(call: Call, { id }: { id: number }): Promise<Buffer> {
  const pieces: Buffer[] = [];
  for (let last = false, from = 0; !last; from += pieces.at(-1)?.length ?? 0) {
    const piece = await call('export.getPiece', { id, from });
    pieces.push(Buffer.from(piece.base64, 'base64'));
    last = piece.last;
  }
  return Buffer.concat(pieces);
}
