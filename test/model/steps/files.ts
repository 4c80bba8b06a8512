/** Files that are brought in and undone, and the book taken out. */
import { mkdtempSync, rmSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { CallOutput } from '../../../src/bridge/contract.ts';
import { openDesk } from '../../../src/desk/desk.ts';
import type { Dice } from '../dice.ts';
import type { Driver, Window } from '../driver.ts';
import { act, because, type Step } from '../step.ts';
import { dayPlus, isInShop, seasonOf, type Shop } from '../shop.ts';
import type { Animal, BroughtFile } from '../state.ts';
import { nextTicket } from './intake.ts';

type Kind = BroughtFile['kind'];

interface Sheet {
  kind: Kind;
  content: string;
  /** A row of it cannot be. */
  wrong: boolean;
}

export const american = (day: string): string => `${day.slice(5, 7)}/${day.slice(8)}/${day.slice(0, 4)}`;

const SHEETS: Record<Kind, (shop: Shop, dice: Dice) => Sheet> = {
  hunters: (_, dice) => ({
    kind: 'hunters',
    content: `Name,Phone\nGus Marlow,555-02${dice.between(10, 40)}\nLi Wei,555-0300\n`,
    wrong: false,
  }),
  animals(shop, dice) {
    const days = [dice.between(1, 900), dice.between(1, 5000), dice.onceIn(8) ? -3 : 20].map((ago) => dayPlus(shop.today, -ago));
    if (dice.onceIn(12)) days[0] = `1926${days[0]?.slice(4)}`;
    const rows = days.map((day, i) => `Dana Whitlock ${i + dice.below(3)},Elk,skinned,${american(day)},${320 + i * 7},${300 + i * 7},old ${i}`);
    return {
      kind: 'animals',
      content: ['Name,Species,Brought in as,Date received,Received weight,Hanging weight,Old number', ...rows, ''].join('\n'),
      wrong: days.some((day) => day > shop.today || day < '1950-01-01'),
    };
  },
  weighings(shop, dice) {
    const animal = dice.mostly(shop.inShop, shop.book.animals);
    const ticket = dice.onceIn(10) ? '26-9999' : (animal?.ticket ?? '26-9999');
    const what = dice.pick(['trim', 'bone', 'hanging']);
    const base = animal ? shop.whole(animal.id) : null;
    const pounds = what === 'hanging' ? 300 : 1 + Math.floor((base ?? 30_000) / 453.59237 / 20);
    const came = animal !== undefined && shop.book.files.some((one) => !one.undone && one.animals.includes(animal.id));
    return {
      kind: 'weighings',
      content: `Ticket,What,Weight\n${ticket},${what},${pounds}\n`,
      wrong: ticket === '26-9999' || (animal !== undefined && !isInShop(animal) && !came)
        || (animal !== undefined && what !== 'hanging' && shop.knifeOff(animal).length > 0 && isInShop(animal)),
    };
  },
}; // prettier-ignore

export const bringIn: Step = {
  weight: 0.8,
  calls: ['import.begin', 'import.addPiece', 'import.preview', 'import.run'],
  draw(shop, dice) {
    const again = dice.onceIn(6) ? shop.book.files.at(-1) : undefined;
    const sheet = again ? { kind: again.kind, content: again.content, wrong: null } : SHEETS[dice.pick(['animals', 'hunters', 'weighings'] as const)](shop, dice); // prettier-ignore
    const confirmed = dice.onceIn(2);
    return {
      deed: `a file of ${sheet.kind} is brought in: ${JSON.stringify(sheet.content)}`,
      run: (driver, window) => bring(driver, window ?? (driver.windows[0] as Window), sheet, confirmed),
    };
  },
};

async function bring(driver: Driver, window: Window, { kind, content, wrong }: Omit<Sheet, 'wrong'> & { wrong: boolean | null }, confirmed: boolean): Promise<void> {
  const { shop } = driver;
  const upload = await handOver(driver, window, content);
  if (upload === null) return;
  const seen = (await driver.perform(act('import.preview', { upload, kind }), window)) as CallOutput<'import.preview'> | null;
  if (!seen) return;
  if (wrong !== null && wrong !== seen.problemCount > 0) throw new Error(wrong ? 'a file that cannot be has no problem' : `a good file has problems: ${JSON.stringify(seen.problems)}`);
  const { counts } = seen;
  const nothing = counts.hunters + counts.animals + counts.weighings + counts.none === 0;
  const twice = shop.book.files.some((one) => !one.undone && one.kind === kind && one.content === content);
  const before = Object.fromEntries(['hunter', 'animal', 'weighing'].map((table) => [table, shop.newest(table)]));
  await driver.perform(act('import.run', { upload, kind, layout: seen.layout, confirmed } as never, {
    refuse: because(
      [seen.problemCount > 0, 'sheet.problems'],
      [nothing, 'sheet.no-rows'],
      [!confirmed && seen.doubtCount > 0, 'sheet.doubts'],
      [!confirmed && twice, 'sheet.twice'],
    ),
    done: ({ id }) => readIn(driver, { id, kind, content }, before),
  }), window);
} // prettier-ignore

export async function handOver(driver: Driver, window: Window, content: string): Promise<number | null> {
  const begun = (await driver.perform(act('import.begin', { name: 'old.csv' }), window)) as { upload: number } | null;
  if (!begun) return null;
  const { upload } = begun;
  await driver.perform(act('import.addPiece', { upload, from: 0, base64: Buffer.from(content).toString('base64') }), window);
  return upload;
} // prettier-ignore

/** What the file wrote, held against its rows, into the model. */
function readIn(driver: Driver, file: Pick<BroughtFile, 'id' | 'kind' | 'content'>, before: Record<string, number>): void {
  const { book } = driver.shop;
  const after = (table: string, columns: string) =>
    driver.rows(`SELECT ${columns} FROM ${table} WHERE id > ? ORDER BY id`, before[table]);
  const hunters = after('hunter', 'id, name');
  for (const { id, name } of hunters) book.hunters.push({ id: Number(id), name: String(name), refusesPooling: false, removed: false });
  const animals = after('animal', 'id, season, ticket, hunter_id, species, received_on, stage, detail, brought');
  for (const row of animals) {
    const receivedOn = String(row.received_on);
    const season = seasonOf(receivedOn, book.settings.seasonStartsMonth);
    if (row.season !== season) throw new Error(`season ${row.season} for ${receivedOn}`);
    if (row.ticket !== nextTicket(driver.shop, season)) throw new Error(`ticket ${row.ticket}, not ${nextTicket(driver.shop, season)}`);
    if (!file.content.includes(american(receivedOn))) throw new Error(`${receivedOn} stands in no row`);
    book.animals.push({
      id: Number(row.id), season, ticket: String(row.ticket), formerTickets: [], hunter: Number(row.hunter_id), species: String(row.species),
      brought: 'skinned', pieces: [], stage: 'released', detail: row.detail as Animal['detail'], tag: '', receivedOn, enteredOn: driver.shop.today,
      killDate: null, promisedOn: null, releasedOn: null, disposedOn: null, stageBefore: 'hanging', holds: [], ordered: [], cooler: null, quote: null,
    });
  }
  const weighings = after('weighing', 'id, animal_id, stage, part, grams');
  for (const row of weighings)
    book.weighings.push({
      id: Number(row.id), animal: Number(row.animal_id), batch: null, lot: null, stage: String(row.stage), part: row.part as 'trim', primal: null,
      count: null, grams: Number(row.grams), voided: false,
    });
  const ids = (rows: typeof hunters) => rows.map(({ id }) => Number(id));
  book.files.push({ ...file, undone: false, hunters: ids(hunters), animals: ids(animals), weighings: ids(weighings) });
  const rows = file.content.trim().split('\n').length - 1;
  const wrote = { hunters: hunters.length, animals: animals.length, weighings: weighings.length }[file.kind];
  if (wrote > rows || (file.kind !== 'hunters' && wrote !== rows)) throw new Error(`${wrote} ${file.kind} of ${rows} rows`);
} // prettier-ignore

/** Whether an animal that stood in the shop has left with weights of the file. */
function leftWith({ book }: Shop, file: BroughtFile): boolean {
  const came = book.files.filter(({ undone }) => !undone).flatMap(({ animals }) => animals);
  return book.weighings
    .filter(({ id }) => file.weighings.includes(id))
    .some(({ animal }) => book.animals.some((one) => one.id === animal && !isInShop(one) && !came.includes(one.id)));
} // prettier-ignore

export const undoFile: Step = {
  weight: 0.5,
  calls: ['import.undo'],
  draw(shop, dice) {
    const file = dice.mostly(shop.book.files.filter(({ undone }) => !undone), shop.book.files);
    if (!file) return null;
    return act('import.undo', { id: file.id, by: 'RO' }, {
      refuse: because([file.undone, 'import.undone'], [!file.undone && leftWith(shop, file), 'animal.closed']),
      may: ['import.since', 'import.later-ticket'],
      done() {
        const { book } = shop;
        file.undone = true;
        book.animals = book.animals.filter(({ id }) => !file.animals.includes(id));
        book.hunters = book.hunters.filter(({ id }) => !file.hunters.includes(id));
        book.weighings = book.weighings.filter(({ id }) => !file.weighings.includes(id));
      },
      then: async (driver) => driver.trail.lookAnew(),
    });
  },
}; // prettier-ignore

/** The book as a file; as a text that fills an empty book, which then gives the same text. */
export const takeOut: Step = {
  weight: 0.3,
  calls: ['export.create', 'export.createForHunter', 'export.getPiece', 'import.book'],
  draw(shop, dice) {
    const what = dice.pick(['text', 'tables', 'book', 'description', 'hunter'] as const);
    const hunter = dice.mostly(shop.book.hunters, [])?.id ?? 9999;
    return {
      deed: `the book is taken out: ${what}`,
      run: (driver, window = driver.windows[0] as Window) => take(driver, window, what, hunter),
    };
  },
}; // prettier-ignore

async function take(driver: Driver, window: Window, what: 'text' | 'tables' | 'book' | 'description' | 'hunter', hunter: number): Promise<void> {
  const asked = what === 'hunter'
    ? act('export.createForHunter', { id: hunter }, { refuse: because([hunter === 9999, 'hunter.unknown']) })
    : act('export.create', { what });
  const packed = (await driver.perform(asked, window)) as CallOutput<'export.create'> | null;
  if (!packed) return;
  const text = await fetchAll((from) => driver.perform(act('export.getPiece', { id: packed.id, from }), window) as Promise<Piece>, packed.bytes);
  if (what !== 'text') return;
  await fillAnother(driver, text);
  const upload = await handOver(driver, window, text);
  if (upload === null) return;
  const empty = driver.shop.book.hunters.length + driver.shop.book.quotes.length + driver.shop.book.lots.length === 0;
  if (!empty) await driver.perform(act('import.book', { upload }, { refuse: ['export.not-empty'] }), window);
} // prettier-ignore

type Piece = CallOutput<'export.getPiece'>;
async function fetchAll(piece: (from: number) => Promise<Piece>, bytes: number): Promise<string> {
  const parts: Buffer[] = [];
  for (let from = 0; from < bytes;) {
    const part = Buffer.from((await piece(from)).base64, 'base64');
    parts.push(part);
    from += part.length;
  }
  return Buffer.concat(parts).toString('utf8');
} // prettier-ignore

/** A new book filled with the text says the same again. */
async function fillAnother(driver: Driver, text: string): Promise<void> {
  const folder = mkdtempSync(join(dirname(driver.bookPath), 'filled-'));
  const desk = await openDesk({ bookPath: join(folder, 'shop.gambrel'), clock: () => new Date(driver.shop.now) });
  try {
    const call = async <T>(name: string, input: object): Promise<T> => {
      const answer = await desk.call(name, input);
      if (!answer.ok) throw new Error(`${name} in an empty book: ${JSON.stringify(answer.problem)}`);
      return answer.value as T;
    };
    const { upload } = await call<{ upload: number }>('import.begin', { name: 'book.json' });
    const base64 = Buffer.from(text).toString('base64');
    for (let from = 0; from < base64.length; from += 400_000)
      await call('import.addPiece', { upload, from: (from / 4) * 3, base64: base64.slice(from, from + 400_000) });
    if (new Date(driver.shop.now).getUTCFullYear() < 2020 || driver.shop.now > Date.parse('2099-12-01')) return;
    await call('import.book', { upload });
    const again = await call<CallOutput<'export.create'>>('export.create', { what: 'text' });
    const back = await fetchAll((from) => call<Piece>('export.getPiece', { id: again.id, from }), again.bytes);
    if (back !== text) throw new Error('the book that was filled says something else');
  } finally {
    desk.close();
    rmSync(folder, { recursive: true, force: true });
  }
} // prettier-ignore

/** A temperature logger's file, and its undoing. */
export const bringLog: Step = {
  weight: 0.4,
  calls: ['coolers.previewLog', 'coolers.importLog'],
  draw(shop, dice) {
    const cooler = dice.mostly(shop.book.coolers.filter(({ away }) => !away), []);
    if (!cooler) return null;
    const day = american(dayPlus(shop.today, -dice.between(1, 30)));
    return {
      deed: `a logger's file of ${day}`,
      run: async (driver, window = driver.windows[0] as Window) => {
        const upload = await handOver(driver, window, `Date,Time,Temp (F)\n${day},06:00,36\n${day},07:00,37\n`);
        if (upload === null) return;
        const seen = (await driver.perform(act('coolers.previewLog', { coolerId: cooler.id, upload }), window)) as CallOutput<'coolers.previewLog'> | null;
        if (!seen) return;
        await driver.perform(act('coolers.importLog', { coolerId: cooler.id, upload, confirmed: true }, {
          refuse: because([seen.problemCount > 0, 'sheet.problems'], [seen.fresh === 0, 'logger.nothing-new']),
          done: ({ id }) => void shop.book.coolerLogs.push({ id, undone: false }),
        }), window);
      },
    };
  },
}; // prettier-ignore

export const undoLog: Step = {
  weight: 0.3,
  calls: ['coolers.undoImport'],
  draw(shop, dice) {
    const log = dice.mostly(shop.book.coolerLogs.filter(({ undone }) => !undone), shop.book.coolerLogs);
    if (!log) return null;
    return act('coolers.undoImport', { id: log.id }, {
      refuse: because([log.undone, 'logger.undone']),
      done: () => void (log.undone = true),
    });
  },
}; // prettier-ignore
