/**
 * Every text of every call that writes, filled with what no shop types: far too long, signs of other scripts and
 * directions, bytes that end a text, markup, SQL. Each is either refused with a code that the window can word, or kept
 * exactly as it came; nothing breaks, and nothing else is changed by it.
 */
import Database from 'better-sqlite3';
import type * as v from 'valibot';
import { afterAll, describe, expect, it } from 'vitest';
import type { CallInput, CallName } from '../../src/bridge/contract.ts';
import { procedures } from '../../src/desk/procedures.ts';
import { problemCodes } from '../../src/ui/texts/problem-sentences.ts';
import { freshDesk, type FreshDesk } from './fresh-desk.ts';
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

/** Counts how often a book holds a text, in its cells or within their JSON. */
function counterOf(bookPath: string): { timesHeld(text: string): number; close(): void } {
  const db = new Database(bookPath, { readonly: true });
  const rowsOf = db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all()
    .map((table) => db.prepare<[], unknown[]>(`SELECT * FROM "${table}"`).raw());
  return {
    timesHeld(text) {
      const inJson = JSON.stringify(text).slice(1, -1);
      let times = 0;
      for (const rows of rowsOf)
        for (const row of rows.all())
          for (const cell of row)
            if (typeof cell === 'string') times += cell === text ? 1 : cell.split(inJson).length - 1;
      return times;
    },
    close: () => db.close(),
  };
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

describe.each([...new Set(fields.map(([name]) => name))])('%s', (name) => {
  const own = fields.filter(([call]) => call === name).map(([, path]) => path);
  /** Texts that the shop has taken; while there are none, it refuses for the text alone. */
  let taken: string[] = [];
  let shop: FreshDesk | undefined;
  let counter: ReturnType<typeof counterOf> | undefined;
  const closeShop = (): void => {
    counter?.close();
    shop?.desk.close();
    counter = shop = undefined;
  };
  afterAll(closeShop);

  /** What the call takes in a shop that may have taken other texts. */
  async function ready(): Promise<[FreshDesk, unknown]> {
    shop ??= await freshDesk();
    try {
      return [shop, (await TRIED[name]!(shop))[1]];
    } catch (error) {
      if (taken.length === 0) throw error;
      return readyInNew();
    }
  }
  function readyInNew(): Promise<[FreshDesk, unknown]> {
    closeShop();
    taken = [];
    return ready();
  }
  const timesHeld = (text: string): number => (counter ??= counterOf(shop!.bookPath)).timesHeld(text);

  it.each(own)('%s is refused with a code or kept exactly', async (dotted) => {
    const path = dotted.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
    const otherwise = `${name} ${dotted}` in KEPT_OTHERWISE;
    let [at, valid] = await ready();

    async function sent(text: string) {
      const before = taken.some((one) => one.includes(text)) ? timesHeld(text) : 0;
      const answer = await at.desk.call(name, withText(valid, path, text) as CallInput<typeof name>);
      return { answer, kept: answer.ok && (otherwise || timesHeld(text) > before) };
    }
    /** In a shop of its own where what was taken before may be the reason. */
    async function sentAlone(text: string) {
      const first = await sent(text);
      const clear = first.answer.ok ? first.kept : first.answer.problem.kind === 'invalid';
      if (clear || taken.length === 0) return first;
      [at, valid] = await readyInNew();
      return sent(text);
    }

    for (const texts of [...REFUSED.map((text) => [text]), ...TRIED_TEXTS])
      for (const text of texts) {
        const said = `${name} ${dotted} ${JSON.stringify(text.slice(0, 40))}`;
        const { answer, kept } = await sentAlone(text);
        expect(at.broken, said).toEqual([]);
        if (!answer.ok) {
          expect(answer.problem.kind, said).not.toBe('broken');
          expect(problemCodes, said).toContain(answer.problem.code);
          continue;
        }
        expect(otherwise || !REFUSED.includes(text), `${said} was taken`).toBe(true);
        expect(kept, `${said} was taken and is not kept`).toBe(true);
        taken.push(text);
        [at, valid] = await ready();
        break;
      }
  });
});
