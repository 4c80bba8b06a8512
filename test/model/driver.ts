/** A real desk beside the model: carries out one call after another and holds each answer against what the model allows. */
import Database from 'better-sqlite3';
import { procedures } from '../../src/desk/procedures.ts';
import { openDesk, type Desk } from '../../src/desk/desk.ts';
import type { DemoBook } from '../../src/desk/door.ts';
import type { Answer, CallName } from '../../src/bridge/contract.ts';
import type { Tally } from './tally.ts';
import { Shop } from './shop.ts';
import { emptyBook, type BookState } from './state.ts';
import { clockDoubt } from './clock.ts';
import type { Act } from './step.ts';
import { compare } from './compare.ts';
import { Trail } from './trail.ts';

/** The desk did what no shop may do, or did not do what it must. */
export class Finding extends Error {}

/** A window: the desk that it talks to, and the opening of the book that it shows. */
export interface Window {
  desk: number;
  opening: string | null;
}

export interface DriverOptions {
  bookPath: string;
  /** A demo that lies ready, so that going there does not take half a minute. */
  demo?: DemoBook;
  start: number;
  tally?: Tally;
  /** Stands between the driver and the desk: a rule broken on purpose. */
  around?: (desk: Desk, bookPath: string) => Desk;
}

const NEVER = 1_000_000_000;
const ENTRIES = ['weighing', 'instruction', 'payment', 'bill', 'fat_movement', 'release', 'audit'];
/** Calls at the door and the one by which a window learns the opening are answered in any. */
const inAnyOpening = (call: CallName): boolean => procedures[call].kind === 'door' || call === 'shop.get';
/** What writes, but not as a `write`. */
const CLOCKED: readonly CallName[] = [
  'grinder.start',
  'made.open',
  'import.book',
  'shop.renewBackups',
  'hunters.removeDetails',
];

export class Driver {
  readonly shop: Shop;
  readonly log: string[] = [];
  readonly broken: unknown[] = [];
  readonly bookPath: string;
  /** The second is another computer's, open only now and then. */
  desks: (Desk | null)[] = [];
  windows: Window[] = [];
  openings: (string | null)[] = [];
  readonly hasDemo: boolean;
  /** What each backup, by its path, holds. */
  backups = new Map<string, BookState>();
  inDemo = false;
  at = 0;
  trail!: Trail;
  readonly #options: DriverOptions;
  #peek!: Database.Database;

  private constructor(options: DriverOptions) {
    this.#options = options;
    this.bookPath = options.bookPath;
    this.hasDemo = options.demo !== undefined;
    this.shop = new Shop(emptyBook('America/Denver'), options.start);
    this.shop.newest = (table) => Number(this.#peek.prepare(`SELECT max(id) FROM ${table}`).pluck().get());
  }

  /** A desk on a new book, set up. */
  static async begin(options: DriverOptions): Promise<Driver> {
    const driver = new Driver(options);
    await driver.openDesk(0);
    driver.windows = [{ desk: 0, opening: driver.openings[0] ?? null }, { desk: 0, opening: driver.openings[0] ?? null }]; // prettier-ignore
    driver.lookAnew();
    await driver.must('shop.setUp', { shopName: 'Model Locker', unit: 'lb', currency: 'USD' });
    await driver.must('shop.saveSettings', { changes: { zone: 'America/Denver' } });
    driver.shop.book.prices.push({ id: 1, validFrom: '2000-01-01', example: true, currency: 'USD', lines: driver.rows('SELECT code, basis, amount_minor AS amountMinor, rate, unit, species, brought, tax_rate AS taxRate FROM price_line').map((row) => ({ ...row, species: JSON.parse(String(row.species)), brought: JSON.parse(String(row.brought)) })) as never }); // prettier-ignore
    driver.noteEntries();
    driver.trail.lookAnew();
    return driver;
  }

  async openDesk(at: number): Promise<void> {
    const desk = await openDesk({
      bookPath: this.bookPath,
      clock: () => new Date(this.shop.now),
      onBroken: (error) => this.broken.push(error),
      upkeep: { backUpEvery: NEVER, lookEvery: NEVER },
      ...(this.#options.demo && { demoBook: this.#options.demo }),
    });
    this.desks[at] = this.#options.around ? this.#options.around(desk, this.bookPath) : desk;
    await this.learnOpening(at);
  }

  async learnOpening(at: number): Promise<void> {
    const answer = (await this.desks[at]?.call('shop.get', {})) as Answer<{ opening: string }>;
    if (!answer.ok) throw new Finding(`shop.look: ${JSON.stringify(answer.problem)} ${this.broken.map(String).join()}`);
    this.openings[at] = answer.value.opening;
  } // prettier-ignore

  /** The file was exchanged: what was read of it is old. */
  lookAnew(): void {
    this.#peek?.close();
    this.#peek = new Database(this.bookPath, { readonly: true });
    this.trail = new Trail(this.#peek);
    this.noteEntries();
  }

  rows(sql: string, ...bound: unknown[]): Record<string, unknown>[] {
    return this.#peek.prepare<unknown[], Record<string, unknown>>(sql).all(...bound);
  }

  /** The file must be nobody else's while it is exchanged or closed. */
  letGo(): void {
    this.#peek.close();
  }

  #version(): number {
    if (!this.#peek.open) return 0;
    return Number(this.#peek.pragma('data_version', { simple: true }));
  }

  noteEntries(): void {
    if (!this.#peek.open) return;
    for (const table of ENTRIES) {
      const [last] = this.rows(`SELECT at FROM ${table} ORDER BY id DESC LIMIT 1`);
      if (last) this.shop.book.lastEntries[table] = Date.parse(String(last.at));
      else delete this.shop.book.lastEntries[table];
    }
  }

  /** A window that shows the open book. */
  windowAnew(): Window {
    return { desk: 0, opening: this.openings[0] ?? null };
  }

  /** A call that the test itself needs. */
  async must(call: CallName, input: object): Promise<unknown> {
    const answer = await this.desks[0]?.call(call, input);
    if (!answer?.ok) throw new Finding(`${call}: ${JSON.stringify(answer?.problem)} ${this.broken.map(String).join()}`);
    return answer.value;
  } // prettier-ignore

  /** Carries out one call at a window and judges the answer. @returns the value, or null where it was refused */
  async perform(act: Act, window: Window = this.windows[0] as Window): Promise<unknown> {
    const { call, input } = act;
    const desk = this.desks[window.desk];
    if (!desk) return null;
    const stale = window.opening !== this.openings[window.desk] && !inAnyOpening(call);
    const before = this.#version();
    const said = `${this.at}. ${window.desk === 0 ? '' : '[other computer] '}${call} ${JSON.stringify(input)}`;
    this.log.push(`${said} …`);
    const answer = await desk.call(call, input, window.opening);
    this.log[this.log.length - 1] = `${said} → ${answer.ok ? 'done' : answer.problem.code}`;
    this.#options.tally?.count(call, answer);
    const fail = (why: string): never => {
      throw new Finding(`${why}\n  ${said}\n  answer ${JSON.stringify(answer)}${this.broken.map((one) => `\n  ${(one as Error).stack ?? String(one)}`).join('')}`);
    }; // prettier-ignore
    if (this.broken.length > 0) fail('the desk broke');
    const wrote = this.#version() !== before;
    const kind = procedures[call].kind;
    const clocked = (kind === 'write' && call !== 'shop.trustClock') || CLOCKED.includes(call);
    const clock = clocked && !this.inDemo ? clockDoubt(this.shop) : { refuse: [], may: [] };
    const refuse = stale ? ['book.other-opening'] : [...act.refuse, ...clock.refuse];
    const may = stale ? [] : [...act.may, ...clock.may];
    if (stale) window.opening = this.openings[window.desk] ?? null;
    if (!answer.ok) {
      if (wrote) fail('it was refused, and yet something was written');
      const { code, kind: sort } = answer.problem;
      if (![...refuse, ...may].includes(code))
        fail(sort === 'broken' ? 'a broken answer' : `refused; the model allows ${refuse.join(', ') || 'no refusal'}`);
      return null;
    } // prettier-ignore
    if (refuse.length > 0) fail(`carried out, although ${refuse.join(', ')}`);
    if (kind === 'read' && wrote) fail('a call that reads wrote something');
    try {
      act.done(answer.value);
    } catch (error) {
      fail(error instanceof Error ? (error.stack ?? error.message) : String(error));
    }
    if (wrote && !this.inDemo) this.noteEntries();
    await act.then?.(this, window);
    return answer.value;
  }

  /** The whole book against the model, and every rule that always holds. */
  check(): void {
    if (this.inDemo) return;
    const wrong = [...compare(this), ...this.trail.changed()];
    if (wrong.length > 0) throw new Finding(`the book is not as the model has it:\n  ${wrong.slice(0, 6).join('\n  ')}`);
  } // prettier-ignore

  end(): void {
    this.#peek.close();
    for (const desk of this.desks) desk?.close();
  }
}
