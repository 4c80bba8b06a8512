/**
 * Every text of every call that writes, filled with what no shop types: far too long, signs of other scripts and
 * directions, bytes that end a text, markup, SQL. Each is either refused with a code that the window can word, or kept
 * exactly as it came; nothing breaks, and nothing else is changed by it.
 */
import Database from 'better-sqlite3';
import type * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import type { CallInput, CallName } from '../../src/bridge/contract.ts';
import { procedures } from '../../src/desk/procedures.ts';
import { problemCodes } from '../../src/ui/texts/problem-sentences.ts';
import { freshDesk } from './fresh-desk.ts';
import { TRIED } from './tried-writes.ts';

const MARKUP = '<img src=x onerror=alert(1)>"\'&amp;</td>';
const SQL = "'); DROP TABLE hunter; --";
/** Family of joined signs, a reindeer, Hebrew and Arabic with marks that turn the direction, a letter with its accent apart. */
const SIGNS = '👩‍👩‍👧🦌 \u202Eאבג\u202C \u200Fسلام e\u0301';
const REFUSED = [
  'x'.repeat(10_000),
  '🦌'.repeat(5_000),
  'a\0b',
  '\u0007bell',
  'a\u001b[2Jb',
  'a\u0085b',
  'cut off \ud83e',
];
/** From each row the first that is not refused must be kept: a field of a few letters takes only the short ones. */
const TRIED_TEXTS = [
  [`${MARKUP} ${SQL} ${SIGNS}`, MARKUP, SQL, '<b>', "';--", '🦌', 'אב'],
  ['=1+1'],
  ['__proto__'],
];

/** Taken and not kept as such, each for its reason. */
const KEPT_OTHERWISE: Readonly<Record<string, string>> = {
  'shop.setLock passphrase': 'only a key made of it is kept',
  'shop.addStaff initials': 'initials are capitals',
  'hunters.save reason': 'says why somebody known is changed; a new hunter needs none',
};

type Path = readonly (string | number)[];

interface Node {
  type: string;
  entries?: Record<string, Node>;
  item?: Node;
  value?: Node;
  wrapped?: Node;
  options?: Node[] | readonly string[];
}

/** Where a schema takes free text, as paths into an input; a list stands for its first item, a record for one key. */
function textsOf(node: Node, path: Path = []): Path[] {
  if (node.type === 'string') return [path];
  if (node.entries)
    return Object.entries(node.entries).flatMap(([key, inner]) => textsOf(inner, [...path, key]));
  if (node.type === 'array' && node.item) return textsOf(node.item, [...path, 0]);
  if (node.type === 'record' && node.value) return textsOf(node.value, [...path, 'word']);
  if (node.wrapped) return textsOf(node.wrapped, path);
  if (['union', 'variant'].includes(node.type))
    return (node.options as Node[]).flatMap((option) => textsOf(option, path));
  return [];
}

/** A copy of `input` with `text` at `path`; what leads there is made. */
function withText(input: unknown, [step, ...rest]: Path, text: string): unknown {
  if (step === undefined) return text;
  if (typeof step === 'number') {
    const list = Array.isArray(input) ? (input as unknown[]) : [];
    return [withText(list[0], rest, text), ...list.slice(1)];
  }
  const inner = (input ?? {}) as Record<string, unknown>;
  return { ...inner, [step]: withText(inner[step], rest, text) };
}

function rowsHolding(bookPath: string, text: string): boolean {
  const db = new Database(bookPath, { readonly: true });
  const inJson = JSON.stringify(text).slice(1, -1);
  const tables = db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all();
  const held = tables.some((table) =>
    db
      .prepare(`SELECT * FROM "${table}"`)
      .raw()
      .all()
      .some((row) =>
        (row as unknown[]).some(
          (cell) => typeof cell === 'string' && (cell === text || cell.includes(inJson)),
        ),
      ),
  );
  db.close();
  return held;
}

const writing = (Object.keys(procedures) as CallName[]).filter(
  (name) => /^(write|host)$/.test(procedures[name].kind) && TRIED[name],
);
const fields = writing.flatMap((name) => {
  const paths = textsOf(procedures[name].input as v.GenericSchema as unknown as Node);
  return [...new Set(paths.map((path) => path.join('.')))].map((path) => [name, path] as const);
});

it('finds the texts of the calls', () => {
  expect(fields.length).toBeGreaterThan(100);
  expect(fields).toContainEqual(['hunters.save', 'name']);
  expect(fields).toContainEqual(['intake.takeIn', 'hunter.name']);
  expect(fields).toContainEqual(['animals.saveOrders', 'instructions.extras.0']);
});

describe.each(writing)('%s', (name) => {
  const own = fields.filter(([call]) => call === name).map(([, path]) => path);

  it.each(own)('%s is refused with a code or kept exactly', async (dotted) => {
    const path = dotted.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
    let shop = await freshDesk();
    let [, valid] = await TRIED[name]!(shop);
    for (const texts of [...REFUSED.map((text) => [text]), ...TRIED_TEXTS])
      for (const text of texts) {
        const answer = await shop.desk.call(name, withText(valid, path, text) as CallInput<typeof name>);
        const said = `${name} ${dotted} ${JSON.stringify(text.slice(0, 40))}`;
        const otherwise = `${name} ${dotted}` in KEPT_OTHERWISE;
        expect(shop.broken, said).toEqual([]);
        if (!answer.ok) {
          expect(answer.problem.kind, said).not.toBe('broken');
          expect(problemCodes, said).toContain(answer.problem.code);
          continue;
        }
        expect(otherwise || !REFUSED.includes(text), `${said} was taken`).toBe(true);
        expect(otherwise || rowsHolding(shop.bookPath, text), `${said} was taken and is not kept`).toBe(true);
        shop.desk.close();
        shop = await freshDesk();
        [, valid] = await TRIED[name]!(shop);
        break;
      }
    shop.desk.close();
  });
});
