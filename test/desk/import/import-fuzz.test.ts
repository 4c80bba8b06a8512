/** Thousands of broken tables: none comes in by half, none brings the desk down, and every refusal names its row. */
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ImportKind, SheetLayout } from '../../../src/bridge/contract.ts';
import { problemCodes } from '../../../src/ui/texts/problem-sentences.ts';
import { uploadFile } from './import-file.ts';
import { freshDesk } from '../fresh-desk.ts';
import { runs } from '../../runs.ts';

const FILES = runs(2400);

const HEADS: Readonly<Record<ImportKind, readonly string[]>> = {
  hunters: ['Name', 'Phone', 'E-mail', 'Address', 'Licence'],
  animals: ['Date', 'Customer', 'Species', 'Brought as', 'Sex', 'Hanging (lb)', 'Trim', 'Whole cuts', 'Take home', 'Packages', 'Notes'],
  weighings: ['Ticket', 'Part', 'Weight', 'Tare', 'Count', 'Note'],
}; // prettier-ignore

/** Cells as shops write them, and as they break. */
const good = {
  hunters: ['Dana Whitlock', 'Rosa Díaz', '555-0142', 'dana@example.org', 'Old Road 1, Cody'],
  animals: ['2023-11-04', '11/14/2023', 'Dana', 'elk', 'Muley', 'whole', 'skinned', 'bull', '300', '84,5', '61 lb 3 oz', '31', ''],
  weighings: ['26-0001', '26-0002', 'hanging', 'trim', 'bone', '12.5', '3,25 kg', '2', ''],
} satisfies Record<ImportKind, readonly string[]>; // prettier-ignore
const bad = fc.oneof(
  fc.constantFrom(
    '"', '""', 'a"b', '"open', '\0', 'x\0y', '=HYPERLINK("http://x","y")', '+1', '-84.6', '@cmd', "'=1", '\t', 'שלום עולם',
    '\u202Egnp.xe', '🦌🦌', '🏴󠁧󠁢󠁳󠁣󠁴󠁿', '31/31/2023', '2023-02-30', '0000-00-00', '99999-01-01', '2031-05-05', '1e308', 'NaN', 'Infinity', '0', '-0',
    '１２', '½', '1,234', '1.234.567,8', '999999999999', '#REF!', 'null', 'undefined', '__proto__', 'constructor', 'toString', '\u00a0', '\uFEFF',
    "Robert'); DROP TABLE hunter;--", '\ud800', 'é'.normalize('NFD'), '12 lb 17 oz', '1/3', '\u0085', '\u2028',
  ),
  fc.integer({ min: 9_990, max: 10_010 }).map((n) => 'x'.repeat(n)),
  fc.string({ unit: 'binary', maxLength: 30 }),
  fc.float().map(String),
  fc.date({ noInvalidDate: true }).map((day) => day.toISOString()),
); // prettier-ignore

interface Broken {
  kind: ImportKind;
  bytes: Uint8Array;
  picked: Partial<SheetLayout> | null;
  confirmed: boolean;
}

const tables = fc.constantFrom<ImportKind>('hunters', 'animals', 'weighings').chain((kind) => {
  const width = HEADS[kind].length;
  // A sound row now and then, so that some tables come in and are not refused for their first cell.
  const sound: Record<ImportKind, string[]> = {
    hunters: ['Dana Whitlock', '555-0142', '', '', ''],
    animals: ['2023-11-04', 'Dana', 'elk', 'whole', 'cow', '300', '80', '60', '140', '31', ''],
    weighings: ['26-0001', 'trim', '12.5', '', '', ''],
  };
  const cell = fc.oneof({ weight: 6, arbitrary: fc.constantFrom<string>(...good[kind]) }, { weight: 1, arbitrary: bad });
  const row = fc.oneof(
    { weight: 9, arbitrary: fc.constant(sound[kind]) },
    { weight: 2, arbitrary: fc.tuple(fc.constant(sound[kind]), fc.nat(width - 1), bad).map(([cells, at, wrong]) => cells.with(at, wrong)) },
    { weight: 1, arbitrary: fc.array(cell, { maxLength: width + 3 }) },
  );
  return fc.record<Broken>({
    kind: fc.constant(kind),
    bytes: fc
      .record({
        rows: fc.array(row, { maxLength: 6 }),
        head: fc.oneof<fc.MaybeWeightedArbitrary<string[]>[]>({ weight: 9, arbitrary: fc.constant<string[]>([...HEADS[kind]]) }, { weight: 1, arbitrary: fc.shuffledSubarray<string>([...HEADS[kind]]) }),
        separator: fc.constantFrom(',', ',', ';', '\t'),
        ends: fc.array(fc.constantFrom('\n', '\r\n', '\r', '\n\n'), { minLength: 1, maxLength: 4 }),
        quoted: fc.boolean(),
        encoding: fc.constantFrom('utf8', 'utf8', 'bom', 'utf16le', 'latin1'),
        cut: fc.oneof({ weight: 9, arbitrary: fc.constant(1) }, { weight: 1, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) }),
      })
      .map(({ rows, head, separator, ends, quoted, encoding, cut }) => {
        const text = [head, ...rows]
          .map((cells, i) => cells.map((one) => (quoted ? `"${one.replaceAll('"', '""')}"` : one)).join(separator) + ends[i % ends.length])
          .join('');
        const bytes = Buffer.from(encoding === 'bom' ? `\uFEFF${text}` : text, encoding === 'bom' ? 'utf8' : encoding as BufferEncoding);
        return bytes.subarray(0, Math.ceil(bytes.length * cut));
      }),
    picked: fc.oneof(
      { weight: 3, arbitrary: fc.constant(null) },
      { weight: 1, arbitrary: fc.record({
        separator: fc.constantFrom<SheetLayout['separator']>(',', ';', '\t'),
        headingRow: fc.nat(8),
        decimal: fc.constantFrom<SheetLayout['decimal']>('.', ','),
        dates: fc.constantFrom<SheetLayout['dates']>('day first', 'month first'),
        columns: fc.dictionary(fc.constantFrom('name', 'species', 'receivedOn', 'hanging', 'weight', 'ticket', 'constructor'), fc.nat(20)),
      }, { requiredKeys: [] }) },
    ),
    confirmed: fc.boolean(),
  });
}); // prettier-ignore

describe(`${FILES} broken tables`, () => {
  it('come in whole or not at all, and every refusal is a problem with its row', async () => {
    const shop = await freshDesk();
    for (const species of ['elk', 'moose'])
      await shop.call('intake.takeIn', {
        hunter: { name: `Owner of ${species}` }, species, sex: 'male', age: 'adult', brought: 'skinned',
        weights: [{ stage: 'received', typed: '400' }],
      }); // prettier-ignore
    const book = new Database(shop.bookPath, { readonly: true });
    const counted = book.prepare(
      `SELECT (SELECT count(*) FROM hunter), (SELECT count(*) FROM animal), (SELECT count(*) FROM weighing),
         (SELECT total(grams) FROM weighing), (SELECT count(*) FROM animal_sum), (SELECT count(*) FROM release)`,
    );
    const state = (): number[] => counted.raw().get() as number[];
    const met = { in: 0, refused: 0, codes: new Set<string>() };
    const coded = (code: string): void => {
      met.codes.add(code);
      expect(problemCodes, code).toContain(code);
    };

    await fc.assert(
      fc.asyncProperty(tables, async ({ kind, bytes, picked, confirmed }) => {
        const before = state();
        const upload = await uploadFile(shop, bytes);
        let look = await shop.desk.call('import.preview', { upload, kind });
        if (look.ok && picked) {
          const { layout } = look.value as { layout: SheetLayout };
          look = await shop.desk.call('import.preview', { upload, kind, layout: { ...layout, ...picked } });
        }
        expect(state()).toEqual(before);
        if (!look.ok) {
          coded(look.problem.code);
          met.refused += 1;
          return;
        }
        const value = look.value as Awaited<ReturnType<typeof shop.call<'import.preview'>>>;
        for (const { row, problem } of [...value.problems, ...value.doubts]) {
          coded(problem.code);
          expect(row).toBeGreaterThan(0);
        }
        const answer = await shop.desk.call('import.run', { upload, kind, layout: value.layout, confirmed });
        if (answer.ok) {
          met.in += 1;
          const { id } = answer.value as { id: number };
          const { hunters, animals, weighings } = value.counts;
          const [h = 0, a = 0, w = 0] = before;
          expect(state().slice(0, 3)).toEqual([h + hunters, a + animals, w + weighings]);
          expect(value.problemCount).toBe(0);
          await shop.call('import.undo', { id });
        } else {
          met.refused += 1;
          coded(answer.problem.code);
          if (answer.problem.code === 'sheet.problems') expect(answer.problem.with?.row).toBeGreaterThan(0);
          expect(answer.problem.kind).not.toBe('broken');
        }
        expect(state()).toEqual(before);
        expect(shop.broken).toEqual([]);
      }),
      { numRuns: FILES, seed: 20231104 },
    );
    console.log(
      `${met.in} came in, ${met.refused} were refused, for ${met.codes.size} reasons: ${[...met.codes].sort().join(' ')}`,
    );
    expect(book.pragma('foreign_key_check')).toEqual([]);
    book.close();
    // A fuzz whose files are all refused for one reason would prove nothing.
    expect(met.in).toBeGreaterThan(FILES / 10);
    expect(met.refused).toBeGreaterThan(FILES / 10);
    expect(met.codes.size).toBeGreaterThan(15);
  }, 240_000);
});
