/** The layout of a table: chosen by the shop, or guessed from its first rows and headings. */
import * as v from 'valibot';
import { guessSeparator, type Separator, type SheetEncoding } from '../../core/sheet/text.ts';
import { guessDateOrder, guessDecimal, type DateOrder, type DecimalMark } from '../../core/sheet/values.ts';
import type { MassUnit } from '../../core/values/units.ts';
import { needed, text } from '../input/input.ts';
import type { ImportField, ImportKind, SheetLayout, ShopSettings } from '../contract/contract.ts';
import { FIELDS, folded } from './fields.ts';
import { isHeadingOf } from './headings.ts';
import { MAX_COLUMNS, rowsOf, type SheetRow } from '../input/rows.ts';
import { MASS_UNITS } from '../../trade/weighing.ts';

const column = v.pipe(
  v.number('input.invalid'),
  v.integer('input.invalid'),
  v.minValue(0, 'input.invalid'),
  v.maxValue(MAX_COLUMNS, 'input.invalid'),
);
const recordOf = <S extends v.GenericSchema>(key: v.GenericSchema<string, string>, value: S, most: number) =>
  v.pipe(v.record(key, value), v.maxEntries(most, 'list.too-long'));
/** More fields than any kind of table has. */
const MAX_FIELDS = 40;
const MAX_MEANINGS = 1000;
const perField = <S extends v.GenericSchema>(value: S) =>
  v.optional(recordOf(needed(20), value, MAX_FIELDS), {});

/** @see SheetLayout */
export const layoutSchema = v.object({
  encoding: v.picklist(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'], 'choice.encoding'),
  separator: v.picklist([',', ';', '\t'], 'choice.separator'),
  /** Row of the headings, counted from 1; 0 if there is none. */
  headingRow: v.pipe(column, v.maxValue(50, 'input.invalid')),
  decimal: v.picklist(['.', ','], 'choice.decimal'),
  dates: v.picklist(['day first', 'month first'], 'choice.dates'),
  /** Unit of weights without a unit in the cell or the heading. */
  unit: v.picklist(MASS_UNITS, 'choice.unit'),
  /** Column of each field, counted from 0. */
  columns: perField(column),
  /** Constant value of a field without a column. */
  always: perField(text(200)),
  /** Meaning of the table's words, by field and folded word. */
  words: perField(
    recordOf(v.pipe(v.string('input.invalid'), v.maxLength(120, 'input.invalid')), needed(60), MAX_MEANINGS),
  ),
});

/** Stored settings of a kind of table: fields by heading, and everything independent of column positions. */
export interface Remembered {
  headings: Record<string, ImportField>;
  always: SheetLayout['always'];
  words: SheetLayout['words'];
  unit: MassUnit;
}

/** Schema of the stored form. */
export const rememberedSchema: v.GenericSchema<unknown, Remembered> = v.object({
  headings: v.record(
    v.string(),
    v.custom<ImportField>((code) => typeof code === 'string'),
  ),
  always: layoutSchema.entries.always,
  words: layoutSchema.entries.words,
  unit: layoutSchema.entries.unit,
});

/** Number of rows used for a guess. */
const LOOKED_AT = 200;
/** Longer cells are not headings or dates; bounds the work of a guess. */
const MAX_LETTERS = 120;
/** Maximum number of titles and empty rows above the headings. */
const MAX_ABOVE = 15;

/** Guesses the layout of a new table. */
export function guessLayout(
  kind: ImportKind,
  sheet: { text: string; encoding: SheetEncoding },
  settings: Pick<ShopSettings, 'unit' | 'locale'>,
  remembered: Remembered | null,
): SheetLayout {
  const separator: Separator = guessSeparator(sheet.text);
  const sample = rowsOf(sheet.text, separator, LOOKED_AT).map(({ number, cells }) => ({
    number,
    cells: cells.map((cell) => cell.slice(0, MAX_LETTERS)),
  }));
  const headingRow = guessHeadingRow(kind, sample);
  const headings = sample.find(({ number }) => number === headingRow)?.cells ?? [];
  const columns = guessColumns(kind, headings, remembered);
  const texts = (reads: string) =>
    FIELDS[kind].flatMap(({ code, reads: as }) =>
      as === reads && columns[code] !== undefined
        ? sample
            .filter(({ number }) => number > headingRow)
            .map(({ cells }) => cells[columns[code] ?? 0] ?? '')
        : [],
    );
  const dates: DateOrder =
    guessDateOrder(texts('date')) ?? (/-(US|PH)$/.test(settings.locale) ? 'month first' : 'day first');
  const decimal: DecimalMark = guessDecimal(texts('weight')) ?? (separator === ';' ? ',' : '.');
  return {
    encoding: sheet.encoding,
    separator,
    headingRow,
    decimal,
    dates,
    unit: remembered?.unit ?? settings.unit,
    columns,
    always: remembered?.always ?? {},
    words: remembered?.words ?? {},
  };
}

/** Fields by heading: as remembered, else by common headings; each column has one field. */
function guessColumns(
  kind: ImportKind,
  headings: readonly string[],
  remembered: Remembered | null,
): Partial<Record<ImportField, number>> {
  const columns: Partial<Record<ImportField, number>> = {};
  const fields = FIELDS[kind];
  headings.forEach((heading, index) => {
    const known = remembered?.headings[folded(heading)];
    if (known !== undefined && columns[known] === undefined && fields.some(({ code }) => code === known))
      columns[known] = index;
  });
  const taken = new Set(Object.values(columns));
  headings.forEach((heading, index) => {
    if (taken.has(index)) return;
    const field = fields.find((rule) => columns[rule.code] === undefined && isHeadingOf(rule, bare(heading)));
    if (field) columns[field.code] = index;
  });
  return columns;
}

/** The unit in a heading: `Hanging (kg)`. */
export function unitOfHeading(heading: string): MassUnit | null {
  const unit = /(?:^|[\s([,/_-])(lbs?|pounds?|kgs?|kilos?|oz|ounces?|g|grams?)[\s)\].]*$/i
    .exec(heading)?.[1]
    ?.toLowerCase();
  if (!unit) return null;
  if (unit.startsWith('l') || unit.startsWith('p')) return 'lb';
  if (unit.startsWith('k')) return 'kg';
  return unit.startsWith('o') ? 'oz' : 'g';
}

export function remember(layout: SheetLayout, headings: readonly string[]): Remembered {
  const byHeading = Object.entries(layout.columns).map(
    ([field, index]) => [folded(headings[index] ?? ''), field as ImportField] as const,
  );
  return {
    headings: Object.fromEntries(byHeading.filter(([heading]) => heading !== '')),
    always: layout.always,
    words: layout.words,
    unit: layout.unit,
  };
}

function bare(heading: string): string {
  const outside = heading.replace(/[([].*[)\]]/, ' ');
  return folded((outside.trim() === '' ? heading : outside).replace(/#/g, ' number ')).replace(
    / (lbs?|kgs?|oz|g)$/,
    '',
  );
}

/** The first row in which at least two cells are known headings. */
function guessHeadingRow(kind: ImportKind, sample: readonly SheetRow[]): number {
  let best = { row: 0, known: 0 };
  sample.slice(0, MAX_ABOVE).forEach(({ number, cells }) => {
    const known = Object.keys(guessColumns(kind, cells, null)).length;
    if (known > best.known) best = { row: number, known };
  });
  return best.known >= 2 ? best.row : (sample[0]?.number ?? 0);
}
