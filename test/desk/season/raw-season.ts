/** A season added up by plain loops over raw rows, as somebody with the file and a pencil would: no views, no sums of the book. */
import type { Database } from 'better-sqlite3';

export interface RawAnimal {
  id: number;
  ticket: string;
  season: number;
  species: string;
  brought: string;
  sex: string;
  age: string;
  detail: string;
  stage: string;
  receivedOn: string;
  readyOn: string | null;
  damaged: boolean;
  cutter: string | null;
  hanging: number | null;
  base: number | null;
  takeHome: number | null;
  finished: boolean;
  share: number | null;
  cuts: number;
  trim: number;
  fat: number;
  bone: number | null;
  sinew: number | null;
  damage: number | null;
  packed: number;
}

export interface RawWeighing {
  id: number;
  animal_id: number | null;
  batch_id: number | null;
  fat_lot_id: number | null;
  stage: string;
  part: string;
  grams: number;
  by: string;
  at: string;
}

type Row = Record<string, string | number | null>;

/** Weighings that were not taken back. */
export function standingWeighings(db: Database): RawWeighing[] {
  const voided = new Set(
    (db.prepare('SELECT weighing_id FROM weighing_void').all() as { weighing_id: number }[]).map(
      (one) => one.weighing_id,
    ),
  );
  return (db.prepare('SELECT * FROM weighing ORDER BY id').all() as RawWeighing[]).filter(
    ({ id }) => !voided.has(id),
  );
}

export function rawAnimals(db: Database): RawAnimal[] {
  const of = new Map<number, RawWeighing[]>();
  const none = standingNone(db);
  for (const row of standingWeighings(db))
    if (row.animal_id !== null) of.set(row.animal_id, [...(of.get(row.animal_id) ?? []), row]);
  return (db.prepare('SELECT * FROM animal ORDER BY id').all() as Row[]).map((animal) =>
    rawAnimal(animal, of.get(animal.id as number) ?? [], none.get(animal.id as number) ?? []),
  );
}

/** Parts stated to be none, by animal. */
function standingNone(db: Database): Map<number, string[]> {
  const voided = new Set(
    (db.prepare('SELECT none_id FROM part_none_void').all() as { none_id: number }[]).map(
      (row) => row.none_id,
    ),
  );
  const of = new Map<number, string[]>();
  const rows = db.prepare('SELECT id, animal_id, part FROM part_none').all() as { id: number; animal_id: number; part: string }[]; // prettier-ignore
  for (const { id, animal_id, part } of rows)
    if (!voided.has(id)) of.set(animal_id, [...(of.get(animal_id) ?? []), part]);
  return of;
}

function rawAnimal(animal: Row, rows: readonly RawWeighing[], none: readonly string[]): RawAnimal {
  const sum = (stage: string, part?: string): number | null => {
    let total: number | null = null;
    for (const row of rows)
      if (row.stage === stage && (part === undefined || row.part === part)) total = (total ?? 0) + row.grams;
    return total;
  };
  const part = (name: string): number | null => sum('cut', name) ?? (none.includes(name) ? 0 : null);
  const received = sum('received');
  const hanging = sum('hanging');
  const onHook = animal.brought === 'whole' || animal.brought === 'skinned';
  let base = onHook ? hanging : (received ?? hanging);
  if (animal.brought === 'skinned' && base === null) base = received;

  const wholeCuts = sum('cut', 'whole cuts');
  const trimCut = sum('cut', 'trim');
  const trimGround = sum('grinder', 'trim') ?? 0;
  const packed = sum('packed');
  const fat = sum('cut', 'fat saved') ?? sum('grinder', 'fat saved') ?? 0;
  const trim = trimCut ?? trimGround;
  let cuts = wholeCuts;
  if (cuts === null && trimGround > 0) cuts = packed;
  let takeHome: number | null = null;
  if (!(wholeCuts === null && trimCut !== null && trimGround === 0)) {
    if (cuts !== null || trimCut !== null) takeHome = (cuts ?? 0) + trim + fat;
    else if (packed !== null || trimGround > 0) takeHome = (packed ?? 0) + trimGround + fat;
  }
  const done = animal.stage === 'packing' || animal.stage === 'ready' || animal.stage === 'released';
  const finished = done && (hanging !== null || received !== null);
  const damage = part('damage');

  const counts = new Map<string, number>();
  for (const row of rows)
    if ((row.stage === 'cut' || row.stage === 'packed') && row.by !== '')
      counts.set(row.by, (counts.get(row.by) ?? 0) + 1);
  const cutter = [...counts].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1))[0]?.[0] ?? null;

  return {
    id: animal.id as number,
    ticket: animal.ticket as string,
    season: animal.season as number,
    species: animal.species as string,
    brought: animal.brought as string,
    sex: animal.sex as string,
    age: animal.age as string,
    detail: animal.detail as string,
    stage: animal.stage as string,
    receivedOn: animal.received_on as string,
    readyOn: animal.ready_on as string | null,
    damaged: animal.damage !== '' || (damage ?? 0) > 0,
    cutter,
    hanging,
    base,
    takeHome,
    finished,
    share: finished && onHook && base !== null && takeHome !== null ? takeHome / base : null,
    cuts: takeHome === null ? 0 : takeHome - trim - fat,
    trim,
    fat,
    bone: part('bone'),
    sinew: part('sinew'),
    damage,
    packed: packed ?? 0,
  };
}

/** Subtotals of standing bills in a currency, added up by animal. */
export function rawIncome(db: Database, currency: string): Map<number, number> {
  const voided = new Set(
    (db.prepare('SELECT bill_id FROM bill_void').all() as { bill_id: number }[]).map((one) => one.bill_id),
  );
  const income = new Map<number, number>();
  for (const bill of db.prepare('SELECT * FROM bill').all() as Row[])
    if (!voided.has(bill.id as number) && bill.currency === currency)
      income.set(
        bill.animal_id as number,
        (income.get(bill.animal_id as number) ?? 0) + (bill.subtotal_minor as number),
      );
  return income;
}

/** The value that a share `p` lies below: linear between order statistics, written out. */
export function rawQuantile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (sorted.length - 1) * p;
  const low = Math.floor(at);
  const high = Math.min(sorted.length - 1, low + 1);
  return (sorted[low] as number) * (1 - (at - low)) + (sorted[high] as number) * (at - low);
}
