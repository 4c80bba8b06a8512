/** Imports a table of earlier records: preview it any number of times, import all of it, undo all of it. */
import * as v from 'valibot';
import type { ImportRow } from '../../book/records/imports.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { by, id, needed, confirmed } from '../input/input.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { readSetting } from '../session/settings.ts';
import type { ImportKind, ImportedFile, SheetPreview } from '../contract/contract.ts';
import { FIELDS } from './fields.ts';
import { layoutSchema, remember, rememberedSchema, type Remembered } from './layout.ts';
import { checkRows, openSheet, writeRows, type Findings, type Sheet } from './run.ts';
import {
  appendPiece,
  beginUpload,
  dropUpload,
  longUpload,
  MAX_BOOK_BYTES,
  MAX_PIECE,
  tableOf,
} from '../session/upload.ts';
import { dictionary, valuesOf } from './words.ts';
import { reasonKept } from '../../trade/offered.ts';

const kind = v.picklist(['hunters', 'animals', 'weighings'], 'choice.table');
/** How the preview shows a part stated as none; the file may use this word too. */
const NONE = 'none';
/** Files with more rows are imported and undone in the worker thread. */
const LONG_ROWS = 800;
const which = { upload: id, kind, layout: v.optional(layoutSchema) };

/** Starts an upload; the pieces follow. */
export const begin = read(v.object({ name: needed(255) }), (session, input) => ({
  upload: beginUpload(session, input.name),
}));

/**
 * The next piece, in base64, starting where the previous one ended. @throws ProblemError `sheet.gone`, `sheet.torn`,
 * `sheet.too-large`
 */
export const addPiece = read(
  v.object({
    upload: id,
    from: v.pipe(
      v.number('sheet.torn'),
      v.integer('sheet.torn'),
      v.minValue(0, 'sheet.torn'),
      v.maxValue(MAX_BOOK_BYTES, 'sheet.too-large'),
    ),
    base64: v.pipe(v.string('sheet.torn'), v.maxLength(MAX_PIECE, 'sheet.torn'), v.base64('sheet.torn')),
  }),
  (session, input) => ({ bytes: appendPiece(session, input.upload, input.from, input.base64) }),
);

/** The layout, the first rows, and every problem of every row. Writes nothing. @throws `sheet.*` */
export const preview = read(v.object(which), previewTable, false, longUpload);

function previewTable(
  session: Session,
  input: v.InferOutput<v.ObjectSchema<typeof which, undefined>>,
): SheetPreview {
  const { name, bytes, sha256 } = tableOf(session, input.upload);
  const sheet = openSheet(session, input.kind, bytes, input.layout, rememberedOf(session, input.kind));
  const found = checkRows(session, input.kind, sheet);
  return {
    name,
    bytes: bytes.length,
    ...sheetLook(session, input.kind, sheet, found),
    twice: broughtIn(session.book.imports.same(input.kind, sha256)),
  };
}

/**
 * Imports the whole file or nothing.
 * @throws ProblemError `sheet.problems` (refused), `sheet.no-rows` (refused), `sheet.doubts`, `sheet.twice`
 * (conflict, unless `confirmed`)
 */
export const run = write(
  v.object({ ...which, layout: layoutSchema, confirmed, by }),
  (session, input) => {
    const { name, bytes, sha256 } = tableOf(session, input.upload);
    const sheet = openSheet(session, input.kind, bytes, input.layout, null);
    const found = checkRows(session, input.kind, sheet);
    const [first] = found.problems;
    if (first)
      throw new ProblemError('refused', 'sheet.problems', {
        with: { count: found.problemCount, row: first.row },
      });
    const { hunters, animals, weighings, none, known } = found.counts;
    if (hunters + animals + weighings + none === 0)
      throw new ProblemError('refused', 'sheet.no-rows', { with: { count: known } });
    if (!input.confirmed) {
      const [doubt] = found.doubts;
      if (doubt)
        throw new ProblemError('conflict', 'sheet.doubts', {
          with: { count: found.doubtCount, row: doubt.row },
        });
      const before = session.book.imports.same(input.kind, sha256);
      if (before) throw new ProblemError('conflict', 'sheet.twice', { with: { name: before.file } });
    }
    const { counts, at, ...written } = writeRows(session, input.kind, sheet, input.by);
    const broughtInId = session.book.imports.add({
    kind: input.kind, file: name, sha256, rows: found.rows, ...written, at, by: input.by,
  }); // prettier-ignore
    session.book.settings.put(`bringIn.${input.kind}`, remember(sheet.layout, sheet.headings));
    session.book.audit.note({
    record: 'brought in', recordId: broughtInId, act: 'add', after: { file: name, kind: input.kind, rows: found.rows, ...counts },
    at, by: input.by,
  }); // prettier-ignore
    dropUpload(session);
    return { id: broughtInId, rows: found.rows, ...counts };
  },
  { long: longUpload },
);

/** Imported files, newest first. */
export const list = read(v.object({}), (session): ImportedFile[] =>
  session.book.imports.all().flatMap((row) => broughtIn(row) ?? []),
);

/**
 * Undoes the import of a whole file. @throws ProblemError `import.unknown`, `import.undone`, `import.since`,
 * `animal.closed` (refused: other records depend on it)
 */
export const undo = write(
  v.object({ id, by }),
  (session, input) => {
    const row = session.book.imports.get(input.id);
    if (!row) throw new ProblemError('missing', 'import.unknown');
    if (row.undone_at !== null)
      throw new ProblemError('conflict', 'import.undone', { with: { name: row.file } });
    const left = session.book.imports.leftSince(row);
    if (left) throw new ProblemError('refused', 'animal.closed', { with: left });
    const since = session.book.imports.since(row, ROUNDING_TOLERANCE_GRAMS);
    if (since)
      throw new ProblemError(
        'refused',
        since.what === 'later ticket' ? 'import.later-ticket' : 'import.since',
        {
          with: { name: since.name, what: since.what },
        },
      );
    const at = session.now();
    session.book.imports.remove(row, at, input.by);
    session.book.audit.note({
    record: 'brought in', recordId: row.id, act: 'void', before: { file: row.file, kind: row.kind, rows: row.rows },
    reason: reasonKept('undone'), at, by: input.by,
  }); // prettier-ignore
    return { id: row.id, name: row.file };
  },
  { long: { when: ({ book }, input) => (book.imports.get(input.id)?.rows ?? 0) > LONG_ROWS } },
);

function rememberedOf(session: Session, of: ImportKind): Remembered | null {
  return readSetting(session.book, `bringIn.${of}`, rememberedSchema) ?? null;
}

function sheetLook(
  session: Session,
  of: ImportKind,
  { layout, headings }: Sheet,
  found: Findings,
): Omit<SheetPreview, 'name' | 'bytes' | 'twice'> {
  const known = dictionary(session.species.all);
  const used = new Set([...Object.keys(layout.columns), ...Object.keys(layout.always)]);
  return {
    layout,
    headings,
    rows: found.rows,
    counts: found.counts,
    problems: found.problems,
    problemCount: found.problemCount,
    doubts: found.doubts,
    doubtCount: found.doubtCount,
    fields: FIELDS[of].map(({ code, reads, needed: must }) => ({
      code,
      reads,
      needed: must === true,
      values: reads === 'word' ? valuesOf(code as keyof typeof known, known) : [],
    })),
    first: found.first.map(({ row, values: { texts, weights, counts, none } }) => ({
      row,
      cells: FIELDS[of].flatMap(({ code }) => {
        const reading = weights[code];
        const text = texts[code] ?? (reading ? withUnit(reading) : none.includes(code) ? NONE : counts[code]);
        return used.has(code) && text !== undefined ? [{ field: code, text: String(text) }] : [];
      }),
    })),
    unknown: [...found.unknown.values()].sort((a, b) => b.rows - a.rows),
  };
}

function withUnit({
  digits,
  decimals,
  unit,
  typed,
}: {
  digits: number;
  decimals: number;
  unit: string;
  typed: string;
}): string {
  return /[a-z#]/i.test(typed) ? typed : `${(digits / 10 ** decimals).toFixed(decimals)} ${unit}`;
}

function broughtIn(row: ImportRow | undefined): ImportedFile | null {
  if (!row) return null;
  const count = (first: number | null, last: number | null) =>
    first === null || last === null ? 0 : last - first + 1;
  return {
    id: row.id,
    kind: row.kind,
    file: row.file,
    rows: row.rows,
    hunters: count(row.hunter_first, row.hunter_last),
    animals: count(row.animal_first, row.animal_last),
    weighings: count(row.weighing_first, row.weighing_last),
    none: count(row.part_none_first, row.part_none_last),
    at: row.at,
    by: row.by,
    undoneAt: row.undone_at,
  };
}
