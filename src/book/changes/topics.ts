/** The topics of changes to the book, and the rows that belong to each. */

export const TOPICS = [
  /** What hangs where, each animal's stage, and whether trim is waiting. */
  'hook',
  /** Anything of one animal: its weights, parts, orders, holds, notes. */
  'animal',
  /** The sums of a finished animal: the training data. */
  'finished',
  'order',
  /** What came with an animal besides its meat. */
  'belonging',
  'photo',
  'grind',
  /** A tested grind or its sources; its id is the batch. */
  'fat test',
  'fat',
  /** Ingredients and recipes of the smokehouse. */
  'recipe',
  /** Made batches: amounts, weights on the way, packages, figures, decisions. */
  'made',
  /** Loads of the smokehouse with their logs. */
  'load',
  'money',
  /** Floats and closings of days. */
  'till',
  'price',
  'quote',
  'settings',
  'species',
  'product',
  'cooler',
  'hunter',
  'trail',
  'import',
  /** Stations of the floor and the PINs of its people; not what stations write. */
  'station',
  /** What hunters typed at their own check-in. */
  'draft',
  /** What other shops taught, and what this one gave. */
  'lesson',
  /** Backups and other files beside the book; no row contains them. */
  'files',
] as const;
export type Topic = (typeof TOPICS)[number];

/** One trigger: the topic of a change to a table. The expressions are SQL over `NEW` and `OLD`. */
export interface Watch {
  table: string;
  verb: 'INSERT' | 'UPDATE' | 'DELETE';
  topic: Topic;
  when?: string;
  /** The animal that changed, or the batch of a tested grind. */
  id?: string;
  season?: string;
}

const ofAnimal = (table: string, animal: string, ...topics: Topic[]): Watch[] =>
  topics.map((topic) => ({ table, verb: 'INSERT', topic, id: animal, season: seasonOf(animal) }));
const anyChange = (topic: Topic, ...tables: string[]): Watch[] =>
  tables.flatMap((table) =>
    (['INSERT', 'UPDATE', 'DELETE'] as const).map((verb) => ({ table, verb, topic })),
  );
const seasonOf = (animal: string): string => `(SELECT season FROM animal WHERE id = ${animal})`;
const through = (table: string, id: string): string => `(SELECT animal_id FROM ${table} WHERE id = ${id})`;

/** Less than this is a rounded scale step, in grams. */
export const SCALE_STEP_GRAMS = 5;
const trimWaits = (row: string): string => `(${row}.trim - ${row}.trim_ground > ${SCALE_STEP_GRAMS})`;
/**
 * Whether an animal can yield no more trim, by its sums with this alias: fully ground, or ready. While it is being
 * cut, more trim may follow.
 */
export const isGone = (sum: string): string =>
  `(${sum}.stage IN ('ready', 'released', 'disposed') OR (${sum}.stage = 'packing' AND ${sum}.trim - ${sum}.trim_ground <= ${SCALE_STEP_GRAMS}))`;
const isTested = (batch: string): string => `EXISTS (SELECT 1 FROM fat_test t WHERE t.batch_id = ${batch})`;
const firstTestedOf = `(SELECT min(s.batch_id) FROM batch_source_sum s WHERE s.animal_id > 0 AND s.animal_id = NEW.animal_id AND ${isTested('s.batch_id')})`;

/** Other columns of the sums change with every weight; these affect the rail and the next task. */
const HOOK_COLUMNS = [
  'stage',
  'season',
  'received_on',
  'received',
  'hanging',
  'ready_on',
  'species',
  'brought',
];
const hookChanged = HOOK_COLUMNS.map((column) => `OLD.${column} IS NOT NEW.${column}`)
  .concat(`${trimWaits('OLD')} IS NOT ${trimWaits('NEW')}`)
  .join(' OR ');

const OF_SUMS: readonly Watch[] = [
  ...(['animal', 'hook'] as const).flatMap((topic): Watch[] => [
    { table: 'animal_sum', verb: 'INSERT', topic, id: 'NEW.animal_id', season: 'NEW.season' },
    {
      table: 'animal_sum',
      verb: 'UPDATE',
      topic,
      id: 'NEW.animal_id',
      season: 'NEW.season',
      ...(topic === 'hook' ? { when: hookChanged } : {}),
    },
    { table: 'animal_sum', verb: 'DELETE', topic, id: 'OLD.animal_id', season: 'OLD.season' },
  ]),
  { table: 'animal_sum', verb: 'INSERT', topic: 'finished', when: 'NEW.finished' },
  { table: 'animal_sum', verb: 'UPDATE', topic: 'finished', when: 'OLD.finished OR NEW.finished' },
  { table: 'animal_sum', verb: 'DELETE', topic: 'finished', when: 'OLD.finished' },
];

const OF_ANIMALS: readonly Watch[] = [
  { table: 'animal', verb: 'INSERT', topic: 'animal', id: 'NEW.id', season: 'NEW.season' },
  { table: 'animal', verb: 'INSERT', topic: 'hook' },
  { table: 'animal', verb: 'UPDATE', topic: 'animal', id: 'NEW.id', season: 'NEW.season' },
  { table: 'animal', verb: 'UPDATE', topic: 'hook' },
  { table: 'animal', verb: 'DELETE', topic: 'animal', id: 'OLD.id', season: 'OLD.season' },
  { table: 'animal', verb: 'DELETE', topic: 'hook' },
  // An animal that moves to another season takes its bills with it.
  ...(['animal', 'money'] as const).flatMap((topic) =>
    (['OLD', 'NEW'] as const).map((row): Watch => ({
      table: 'animal',
      verb: 'UPDATE',
      topic,
      when: 'OLD.season <> NEW.season',
      id: `${row}.id`,
      season: `${row}.season`,
    })),
  ),
  ...ofAnimal('weighing', 'NEW.animal_id', 'animal').map((watch) => ({
    ...watch,
    when: 'NEW.animal_id IS NOT NULL',
  })),
  ...ofAnimal('weighing_void', through('weighing', 'NEW.weighing_id'), 'animal'),
  ...ofAnimal('animal_part', 'NEW.animal_id', 'animal'),
  {
    table: 'animal_part',
    verb: 'DELETE',
    topic: 'animal',
    id: 'OLD.animal_id',
    season: seasonOf('OLD.animal_id'),
  },
  {
    table: 'animal_part',
    verb: 'UPDATE',
    topic: 'animal',
    id: 'NEW.animal_id',
    season: seasonOf('NEW.animal_id'),
  },
  ...ofAnimal('part_none', 'NEW.animal_id', 'animal'),
  ...ofAnimal('part_none_void', through('part_none', 'NEW.none_id'), 'animal'),
  ...ofAnimal('former_ticket', 'NEW.animal_id', 'animal'),
  ...ofAnimal('instruction', 'NEW.animal_id', 'animal', 'order'),
  ...ofAnimal('call_note', 'NEW.animal_id', 'animal'),
  ...ofAnimal('affected_note', 'NEW.animal_id', 'animal', 'hook'),
  ...ofAnimal('affected_note_void', through('affected_note', 'NEW.note_id'), 'animal', 'hook'),
  ...ofAnimal('hold', 'NEW.animal_id', 'animal', 'hook'),
  ...ofAnimal('hold_end', through('hold', 'NEW.hold_id'), 'animal', 'hook'),
  ...ofAnimal('hold_result', through('hold', 'NEW.hold_id'), 'animal', 'hook'),
  ...ofAnimal('disposal', 'NEW.animal_id', 'animal', 'hook'),
  ...ofAnimal('disposal_void', through('disposal', 'NEW.disposal_id'), 'animal', 'hook'),
  ...ofAnimal('release', 'NEW.animal_id', 'animal', 'hook'),
  ...ofAnimal('release_void', through('release', 'NEW.release_id'), 'animal', 'hook'),
  ...ofAnimal('release_mend', through('release', 'NEW.release_id'), 'animal', 'hook'),
  ...ofAnimal('cooler_stay', 'NEW.animal_id', 'animal', 'hook', 'cooler'),
  ...ofAnimal('intake_cancel', 'NEW.animal_id', 'animal', 'hook'),
  ...ofAnimal('intake_cancel_void', through('intake_cancel', 'NEW.cancel_id'), 'animal', 'hook'),
  ...ofAnimal('belonging', 'NEW.animal_id', 'animal', 'belonging'),
  ...ofAnimal('belonging_void', through('belonging', 'NEW.belonging_id'), 'animal', 'belonging'),
  ...ofAnimal('belonging_end', through('belonging', 'NEW.belonging_id'), 'animal', 'belonging'),
  ...ofAnimal(
    'belonging_end_void',
    '(SELECT b.animal_id FROM belonging_end e JOIN belonging b ON b.id = e.belonging_id WHERE e.id = NEW.end_id)',
    'animal',
    'belonging',
  ),
  ...ofAnimal('photograph', 'NEW.animal_id', 'photo'),
  ...ofAnimal('photograph_void', through('photograph', 'NEW.photograph_id'), 'photo'),
  ...ofAnimal('photograph_removal', through('photograph', 'NEW.photograph_id'), 'photo'),
  ...ofAnimal('share', through('share_split', 'NEW.split_id'), 'animal', 'hook', 'money'),
  ...ofAnimal('share_pickup', 'NEW.animal_id', 'animal', 'hook'),
  ...ofAnimal('share_pickup_void', through('share_pickup', 'NEW.pickup_id'), 'animal', 'hook'),
  ...ofAnimal('donation', 'NEW.animal_id', 'animal', 'hook', 'money'),
  ...ofAnimal('donation_void', through('donation', 'NEW.donation_id'), 'animal', 'hook', 'money'),
  ...ofAnimal('unprocessed', 'NEW.animal_id', 'animal', 'hook', 'money'),
  ...ofAnimal('unprocessed_void', through('unprocessed', 'NEW.unprocessed_id'), 'animal', 'hook', 'money'),
  ...ofAnimal('pickup_notice', 'NEW.animal_id', 'animal', 'hook'),
  ...ofAnimal('pickup_notice_void', through('pickup_notice', 'NEW.notice_id'), 'animal', 'hook'),
];

const OF_GRINDS: readonly Watch[] = [
  { table: 'weighing', verb: 'INSERT', topic: 'grind', when: 'NEW.batch_id IS NOT NULL' },
  {
    table: 'weighing_void',
    verb: 'INSERT',
    topic: 'grind',
    when: '(SELECT batch_id FROM weighing WHERE id = NEW.weighing_id) IS NOT NULL',
  },
  ...anyChange(
    'grind',
    'batch',
    'batch_animal',
    'grind_pass',
    'fat_test',
    'grinder_cleaning',
    'grinder_cleaning_void',
  ),
  ...ofAnimal('batch_animal', 'NEW.animal_id', 'animal'),
  { table: 'fat_test', verb: 'INSERT', topic: 'fat test', id: 'NEW.batch_id' },
  { table: 'batch', verb: 'UPDATE', topic: 'fat test', when: isTested('NEW.id'), id: 'NEW.id' },
  {
    table: 'batch_source_sum',
    verb: 'INSERT',
    topic: 'fat test',
    when: isTested('NEW.batch_id'),
    id: 'NEW.batch_id',
  },
  {
    table: 'batch_source_sum',
    verb: 'DELETE',
    topic: 'fat test',
    when: isTested('OLD.batch_id'),
    id: 'OLD.batch_id',
  },
  // The first tested grind of an animal or a lot that may yield more again.
  { table: 'animal_sum', verb: 'INSERT', topic: 'fat test', when: `NOT ${isGone('NEW')}`, id: firstTestedOf },
  { table: 'animal_sum', verb: 'UPDATE', topic: 'fat test', when: `NOT ${isGone('NEW')}`, id: firstTestedOf },
  {
    table: 'fat_movement',
    verb: 'INSERT',
    topic: 'fat test',
    when: "NEW.grams > 0 AND NEW.kind IN ('voided', 'counted')",
    id: '(SELECT min(w.batch_id) FROM weighing w WHERE w.fat_lot_id = NEW.lot_id)',
  },
];

const OF_MONEY: readonly Watch[] = [
  ...ofAnimal('bill', 'NEW.animal_id', 'money'),
  ...ofAnimal('bill_void', through('bill', 'NEW.bill_id'), 'money'),
  ...ofAnimal('work_time', 'NEW.animal_id', 'animal', 'money'),
  ...ofAnimal('work_time_void', through('work_time', 'NEW.work_time_id'), 'animal', 'money'),
  ...ofAnimal('adjustment', 'NEW.animal_id', 'money'),
  ...ofAnimal('adjustment_void', through('adjustment', 'NEW.adjustment_id'), 'money'),
  ...ofAnimal('payment', 'NEW.animal_id', 'money'),
  ...ofAnimal('payment_void', through('payment', 'NEW.payment_id'), 'money'),
  ...ofAnimal('quote_taken', 'NEW.animal_id', 'quote', 'animal'),
];

const OF_SMOKEHOUSE: readonly Watch[] = [
  ...anyChange('recipe', 'ingredient', 'ingredient_version', 'recipe', 'recipe_version'),
  ...anyChange(
    'made',
    'made_batch',
    'made_batch_void',
    'made_start',
    'made_weighed',
    'made_weighed_void',
    'made_stage',
    'made_stage_void',
    'made_analysis',
    'made_analysis_void',
    'made_package',
  ),
  ...(['made', 'load'] as const).flatMap((topic) =>
    anyChange(topic, 'load_batch', 'load_batch_void', 'load_verdict', 'deviation', 'deviation_void'),
  ),
  ...anyChange(
    'load',
    'load',
    'load_record',
    'load_log',
    'load_log_void',
    'load_reading',
    'load_exclusion',
    'load_exclusion_void',
  ),
];

/** Every table with entered data; derived tables change with them. */
export const WATCHED: readonly Watch[] = [
  ...OF_SUMS,
  ...OF_ANIMALS,
  ...OF_GRINDS,
  ...OF_MONEY,
  ...OF_SMOKEHOUSE,
  ...anyChange('fat', 'fat_lot', 'fat_movement'),
  ...anyChange('till', 'till_float', 'till_close', 'till_close_void'),
  ...anyChange('price', 'price_book', 'price_line'),
  ...anyChange('quote', 'quote'),
  ...anyChange('settings', 'setting', 'staff'),
  ...anyChange('species', 'species_profile'),
  ...anyChange('product', 'product', 'instruction_template'),
  ...anyChange(
    'cooler',
    'cooler',
    'cooler_log',
    'cooler_log_undone',
    'cooler_temperature',
    'cooler_temperature_void',
  ),
  ...anyChange('hunter', 'hunter'),
  ...anyChange('trail', 'audit'),
  ...['station', 'station_name', 'station_state', 'staff_pin'].map((table): Watch => ({
    table,
    verb: 'INSERT',
    topic: 'station',
  })),
  ...anyChange('draft', 'draft', 'draft_state', 'slip', 'slip_animal'),
  ...anyChange('lesson', 'lesson_given', 'lesson', 'lesson_use'),
  ...anyChange('import', 'brought_in', 'brought_in_undone'),
];

/** Tables that change only together with a watched one. */
export const DERIVED: readonly string[] = [
  'batch_sum', 'bill_line', 'cut_sum', 'fat_lot_sum', 'hunter_digits_lookup', 'hunter_word_lookup', 'season_taught',
  'share_split', 'station_entry', 'station_line', 'station_made',
  'station_write', 'till_close_entry', 'word_lookup',
]; // prettier-ignore
