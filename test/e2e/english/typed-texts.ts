/** What people typed into a book, so that a word of theirs is not taken for the program's. */
import type { deskLine } from '../desk-line.ts';
import { fileOf } from './exported.ts';
import { escaped } from './said.ts';
import { allNames } from '../../../src/desk/names/names.ts';

type Call = Awaited<ReturnType<typeof deskLine>>;

interface BookText {
  tables: { table: string; columns: string[]; rows: unknown[][] }[];
}

/** Columns and fields of JSON that hold a person's own words wherever they stand. */
const TYPED = new Set(
  `name name_key given_to hunter_name deliverer_name deliverer_address address email note text reason label condition damage
  kill_area supplier supplier_lot place oven program lab how method what value word decided_by unpaid_override title file
  shopName shopAddress terms dropOffTerms extras product confirmation reference where lot sample tag licence`.split(
    /\s+/,
  ),
);

/** What the program offered beside a person's own words. */
const CODE = /^(reason|size):/;

/** Finds them in a text, whole. The program's own names, which the book keeps in English, are none of them. */
export async function typedTexts(call: Call): Promise<RegExp> {
  const own = new Set([...allNames('en-US').values()].map((name) => name.toLowerCase()));
  const { tables } = JSON.parse(await bookText(call)) as BookText;
  const texts = new Set<string>();
  const take = (field: string, value: unknown): void => {
    if (Array.isArray(value)) for (const one of value) take(field, one);
    else if (typeof value === 'object' && value !== null)
      for (const [inner, one] of Object.entries(value)) take(inner, one);
    else if (typeof value !== 'string') return;
    else if (/^[[{"]/.test(value) && isJson(value)) take(field, JSON.parse(value));
    else if (TYPED.has(field) && !own.has(value.toLowerCase()) && !CODE.test(value)) texts.add(value.trim());
  };
  for (const { columns, rows } of tables)
    for (const row of rows) row.forEach((value, at) => take(columns[at] ?? '', value));
  // An email may be shown in two pieces, so that it breaks before its @.
  for (const text of [...texts]) if (text.includes('@')) texts.add(text.slice(text.indexOf('@')));
  const words = [...texts].filter((text) => /\p{L}{2}/u.test(text));
  const longestFirst = words.toSorted((a, b) => b.length - a.length).map(escaped);
  return new RegExp(`(?<![\\p{L}\\p{N}])(?:${longestFirst.join('|')})(?![\\p{L}\\p{N}])`, 'giu');
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

async function bookText(call: Call): Promise<string> {
  return (await fileOf(call, await call('export.create', { what: 'text' }))).toString('utf8');
}
