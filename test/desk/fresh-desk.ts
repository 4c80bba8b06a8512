import type { CallInput, CallName, CallOutput, Problem } from '../../src/bridge/contract.ts';
import { openRecordBook } from '../../src/book/book.ts';
import { demoBook } from '../../src/demo/copy.ts';
import { openDesk } from '../../src/desk/desk.ts';
import type { UpkeepTimes } from '../../src/desk/upkeep.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { copyOfShop } from './shop-template.ts';

/** A desk on a fresh book with a clock of its own, already set up, and typed calls that throw what they do not expect. */
export async function freshDesk(unit: 'lb' | 'kg' = 'lb', start = '2026-10-10T15:00:00Z') {
  const path = tempBookPath();
  await copyOfShop(`${unit} ${start.replaceAll(':', '-')}`, path, async (draft) => {
    const shop = await setUpDesk(draft, unit, start);
    shop.desk.close();
  });
  return deskOn(path, start);
}

/** A desk that begins the book at `path` and sets up its shop. */
export async function setUpDesk(path: string, unit: 'lb' | 'kg', start: string): Promise<FreshDesk> {
  const shop = await deskOn(path, start);
  await shop.call('shop.setUp', { shopName: 'Test Locker', unit });
  await shop.call('shop.saveSettings', { changes: { zone: 'America/Denver' } });
  return shop;
}

/** A desk on the book at `path`, which another desk may have begun. */
export async function deskOn(
  bookPath: string,
  start = '2026-10-10T15:00:00Z',
  worker?: URL,
  upkeep?: UpkeepTimes,
) {
  let now = Date.parse(start);
  const broken: unknown[] = [];
  const desk = await openDesk({
    bookPath,
    clock: () => new Date(now),
    worker,
    upkeep,
    onBroken: (error) => broken.push(error),
    demoBook: demoBook(),
  });

  async function call<N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> {
    const answer = await desk.call(name, input);
    if (!answer.ok)
      throw new Error(`${name}: ${JSON.stringify(answer.problem)} ${broken.map(String).join()}`);
    return answer.value as CallOutput<N>;
  }
  async function problem(name: CallName, input: unknown): Promise<Problem> {
    const answer = await desk.call(name, input);
    if (answer.ok) throw new Error(`${name} was carried out: ${JSON.stringify(answer.value)}`);
    return answer.problem;
  }
  return {
    desk,
    bookPath,
    broken,
    call,
    problem,
    /** Lets time pass, so that the same weight may be typed again. */
    wait: (seconds: number) => void (now += seconds * 1000),
  };
}

export type FreshDesk = Awaited<ReturnType<typeof freshDesk>>;

/** Takes one skinned animal in with a hanging weight. */
export async function takeIn(
  shop: FreshDesk,
  more: Partial<CallInput<'intake.takeIn'>> = {},
  hanging: string | null = '400',
) {
  const { id } = await shop.call('intake.takeIn', {
    hunter: { name: 'Dana Whitlock', phone: '555-0142' },
    species: 'elk',
    sex: 'male',
    age: 'adult',
    brought: 'skinned',
    ...more,
  });
  if (hanging !== null)
    await shop.call('table.weigh', { animalId: id, stage: 'hanging', part: 'carcass', typed: hanging });
  return id;
}

/** Weighs parts at the table, e.g. `{ trim: '120', bone: '80.5' }`. */
export async function cut(shop: FreshDesk, animalId: number, parts: Record<string, string>): Promise<void> {
  for (const [part, typed] of Object.entries(parts))
    await shop.call('table.weigh', { animalId, stage: 'cut', part: part as 'trim', typed });
}

/** Closes the desk for good and looks into its book. */
export function inBook<T>(shop: FreshDesk, work: (book: ReturnType<typeof openRecordBook>) => T): T {
  shop.desk.close();
  const book = openRecordBook(shop.bookPath, new Date('2026-10-11T00:00:00Z'));
  try {
    return work(book);
  } finally {
    book.close();
  }
}
