/** What follows from the model's book at a moment: days, holds, what is left, what is owed. Plain loops, no cleverness. */
import type { Animal, Batch, BookState, Hold, Lot, Part, Prices, Weighing } from './state.ts';

export const GRAMS = { lb: 453.59237, kg: 1000, oz: 28.349523125, g: 1 } as const;
/** What the shop calls a crumb: less than this on a scale is nothing. */
export const CRUMB = 5;
/** Two scales may differ by so much before a part outweighs its whole. */
export const SCALES_DIFFER = 1.005;
const DAY = 86_400_000;

export type Held = 'free' | 'held' | 'positive';

export class Shop {
  book: BookState;
  now: number;
  /** The newest id of a table, where an answer does not tell it. */
  newest: (table: string) => number = () => 0;

  constructor(book: BookState, now: number) {
    this.book = book;
    this.now = now;
  }

  get today(): string {
    return dayIn(this.book.settings.zone, this.now);
  }

  get season(): number {
    return seasonOf(this.today, this.book.settings.seasonStartsMonth);
  }

  animal(id: number | null): Animal | undefined {
    return this.book.animals.find((one) => one.id === id);
  }

  get inShop(): Animal[] {
    return this.book.animals.filter(isInShop);
  }

  held(animal: Animal): Held {
    const lasting = animal.holds.map(standingOf).filter((one) => one !== 'free');
    return lasting.includes('positive') ? 'positive' : lasting.length > 0 ? 'held' : 'free';
  }

  /** Why meat of this animal may not be cut, ground or packed now. */
  knifeOff(animal: Animal): string[] {
    const held = this.held(animal);
    if (held === 'positive') return ['cut.positive'];
    return held === 'held' && !this.book.settings.cutWhileHeld ? ['cut.held'] : [];
  }

  /** When a batch was at work, or null. */
  span({ id, passes }: Batch): { first: number; ground: number; known: number; last: number } | null {
    const at = (stage: string): number[] => this.weighed({ batch: id, stage }).map((one) => one.at ?? NaN);
    const ground = [...at('grinder'), ...passes];
    if (ground.length === 0) return null;
    const lastIn = Math.max(-Infinity, ...at('grinder'));
    const after = (moments: number[]): number[] => moments.filter((moment) => moment >= lastIn);
    return {
      first: Math.min(...ground),
      ground: Math.max(...ground),
      // Meat that was weighed in last was ground by the last pass after it, or by the first package.
      known: after(passes).length > 0 ? Math.max(...passes) : Math.min(Infinity, ...after(at('packed'))),
      last: Math.max(...ground, ...at('packed')),
    };
  }

  /** Whether what one batch left in the grinder was in there while another of its season was at work. */
  carries(from: Batch, to: Batch): boolean {
    const [one, other] = [this.span(from), this.span(to)];
    if (!one || !other || from.season !== to.season || other.last <= one.first) return false;
    return !this.book.cleanings.some(({ voided, at, batch }) => {
      const counts = at >= one.known || (at >= one.ground && batch === from.id);
      return !voided && counts && at <= other.first;
    });
  }

  /** Positive animals whose meat reached a batch: all pairs of batches, until nothing is added. */
  reachedBy(batch: Batch): Animal[] {
    return this.book.animals.filter((animal) => {
      if (this.held(animal) !== 'positive') return false;
      const reached = this.book.batches.filter(({ id }) => this.wentInto(id, animal.id));
      for (let before = -1; before !== reached.length;) {
        before = reached.length;
        for (const to of this.book.batches)
          if (!reached.includes(to) && reached.some((from) => this.carries(from, to))) reached.push(to);
      }
      return reached.includes(batch);
    });
  }

  /** Every positive animal with every batch that its meat reached and each other animal in that batch. */
  reachedAnimals(): Set<string> {
    const found = this.book.batches.flatMap((batch) =>
      this.reachedBy(batch).flatMap((source) =>
        batch.animals
          .filter((id) => id !== source.id && this.wentInto(batch.id, id))
          .map((id) => `${source.id} ${batch.id} ${id}`),
      ),
    );
    return new Set(found);
  }

  /**
   * Why this animal may not become ready or go out: meat of a held one lies in one batch with its own, or the grinder carried
   * that of a positive one into it.
   */
  pooledOff(animal: Animal): string[] {
    const reached = this.book.batches
      .filter(({ id }) => this.wentInto(id, animal.id))
      .flatMap((batch) => this.reachedBy(batch).map((other) => ({ batch, other })))
      .filter(({ other }) => other !== animal);
    const carried = reached.every(({ batch, other }) => !this.wentInto(batch.id, other.id));
    if (reached.length > 0) return [carried ? 'pooled.through-grinder' : 'pooled.positive'];
    const others = this.book.batches
      .filter(({ id }) => this.wentInto(id, animal.id))
      .flatMap(({ id, animals }) =>
        animals.filter((other) => other !== animal.id && this.wentInto(id, other)),
      );
    const held = others.map((id) => this.held(this.animal(id) as Animal));
    return held.includes('held') ? ['pooled.held'] : [];
  }

  /** Weighings that count. */
  weighed(of: { animal?: number; batch?: number; lot?: number; stage?: string; part?: Part }): Weighing[] {
    return this.book.weighings.filter(
      (one) =>
        !one.voided &&
        (of.animal === undefined || one.animal === of.animal) &&
        (of.batch === undefined || one.batch === of.batch) &&
        (of.lot === undefined || one.lot === of.lot) &&
        (of.stage === undefined || one.stage === of.stage) &&
        (of.part === undefined || one.part === of.part),
    );
  }

  grams(of: Parameters<Shop['weighed']>[0]): number {
    return this.weighed(of).reduce((sum, { grams }) => sum + grams, 0);
  }

  /** As `grams`, but null where nothing was weighed. */
  gramsOrNull(of: Parameters<Shop['weighed']>[0]): number | null {
    return this.weighed(of).length === 0 ? null : this.grams(of);
  }

  wentInto(batch: number, animal: number): boolean {
    return this.weighed({ batch, animal, stage: 'grinder' }).length > 0;
  }

  trimLeft(animal: number): number {
    return (
      this.grams({ animal, stage: 'cut', part: 'trim' }) -
      this.grams({ animal, stage: 'grinder', part: 'trim' })
    );
  }

  batchIn(batch: number): number {
    return this.grams({ batch, stage: 'grinder' });
  }

  /** All that went into a batch: what is made of it takes more than meat. */
  batchTook(batch: number): number {
    const went = this.batchIn(batch);
    return went > 0 ? went + this.addedTo(batch) : 0;
  }

  /** Weighed of ingredients into whatever is made of a batch. */
  addedTo(batch: number): number {
    return this.book.smokehouse.made
      .filter((one) => one.batch === batch && !one.voided)
      .flatMap(({ weighed }) => weighed.filter(({ voided }) => !voided))
      .reduce((sum, { grams }) => sum + grams, 0);
  }

  batchOut(batch: number): number {
    return this.grams({ batch, stage: 'packed' });
  }

  ownLot(animal: number): Lot | undefined {
    return this.book.lots.find((lot) => lot.animal === animal);
  }

  lot(id: number | null): Lot | undefined {
    return this.book.lots.find((one) => one.id === id);
  }

  batch(id: number): Batch | undefined {
    return this.book.batches.find((one) => one.id === id);
  }

  /** What one thing off an animal may not outweigh: it on the hook, else as it came; null while neither is known. */
  whole(animal: number, without?: Weighing): number | null {
    const of = (stage: string): number | null => {
      const rows = this.weighed({ animal, stage }).filter((one) => one !== without);
      return rows.length === 0 ? null : rows.reduce((sum, { grams }) => sum + grams, 0);
    };
    return of('hanging') ?? of('received');
  }

  /** The prices of today: the latest valid ones, of those the last written. */
  get prices(): Prices | undefined {
    const valid = this.book.prices.filter(({ validFrom }) => validFrom <= this.today);
    return valid.toSorted((a, b) => (a.validFrom < b.validFrom ? -1 : a.validFrom > b.validFrom ? 1 : a.id - b.id)).at(-1); // prettier-ignore
  }

  bill(animal: number) {
    return this.book.bills.find((one) => one.animal === animal && !one.voided);
  }

  /** An animal is paid for in the money of its bill, else of what was paid before, else of the shop. */
  currencyOf(animal: number): string {
    const before = this.book.payments.filter((one) => one.animal === animal && !one.voided).at(-1);
    return this.bill(animal)?.currency ?? before?.currency ?? this.book.settings.currency;
  }

  /** Whether an animal has something still to pay or to give back in another money. */
  owesIn(other: string): boolean {
    return this.book.animals.some(({ id }) => {
      const bill = this.bill(id);
      const owed = (bill?.total ?? 0) - this.paid(id);
      const monies = [bill?.currency, ...this.book.payments.filter((one) => one.animal === id && !one.voided).map((one) => one.currency)];
      return owed !== 0 && monies.some((one) => one !== undefined && one !== other);
    });
  } // prettier-ignore

  paid(animal: number): number {
    return this.book.payments
      .filter((one) => one.animal === animal && !one.voided)
      .reduce((sum, { kind, minor }) => sum + (kind === 'refund' ? -minor : minor), 0);
  }

  /** Every ticket that an animal of this book has or had, once for each animal. */
  get tickets(): string[] {
    return this.book.animals.flatMap(({ ticket, formerTickets }) => [
      ...new Set([ticket, ...formerTickets.map((one) => one.ticket)]),
    ]);
  }
}

export function standingOf({ withdrawn, results }: Hold): Held {
  const last = results.at(-1);
  // A result that was taken back is none: the hold waits, unless somebody lifted it.
  if (last === undefined || last === 'none') return withdrawn ? 'free' : 'held';
  return last === 'positive' ? 'positive' : 'free';
}

export const isInShop = ({ stage }: Animal): boolean =>
  stage !== 'released' && stage !== 'disposed' && stage !== 'canceled';

const days = new Map<string, Intl.DateTimeFormat>();
/** The calendar day of a moment. */
export function dayIn(zone: string, moment: number): string {
  let format = days.get(zone);
  if (!format)
    days.set(zone, (format = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short' })));
  return format.format(moment);
}

export function dayPlus(day: string, more: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + more * DAY).toISOString().slice(0, 10);
}

export function daysFrom(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY);
}

/** A season is named by the year in which it starts. */
export function seasonOf(day: string, startMonth: number): number {
  const [year = 0, month = 0] = day.split('-').map(Number);
  return month >= startMonth ? year : year - 1;
}

/** How tickets of a season begin: two digits in this century, all four else. */
export function markOf(season: number): string {
  return season >= 2000 && season < 2100 ? String(season % 100).padStart(2, '0') : String(season);
}

/** Minor units as somebody types them. */
export function moneyTyped(minor: number, currency: string): string {
  return currency === 'JPY' ? String(minor) : (minor / 100).toFixed(2);
}
