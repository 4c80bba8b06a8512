/** The text columns of the book that removing a hunter's details leaves alone: see `personal-text.ts` for the classes. */

/** Columns that triggers maintain from columns with personal text. */
export const FOLLOWS: Readonly<Record<string, readonly string[]>> = {
  batch_sum: ['product'],
  hunter_digits_lookup: ['digits'],
  hunter_word_lookup: ['word', 'name_key'],
  word_lookup: ['word'],
};

/** Moments and staff initials, in every table. */
export const NEVER_ANYWHERE: readonly string[] = ['at', 'by', 'created_at'];

/** Columns that never identify a hunter, by table. */
export const NEVER: Readonly<Record<string, readonly string[]>> = {
  affected_note: ['what'],
  animal: [
    'ticket', 'species', 'sex', 'age', 'brought', 'legs', 'origin', 'kill_date', 'received_on', 'promised_on', 'detail', 'stage',
    'ready_on',
  ], // prettier-ignore
  animal_part: ['primal'],
  animal_sum: [
    'species', 'brought', 'sex', 'age', 'detail', 'stage', 'received_on', 'ready_on', 'cutter', 'cut_at',
  ], // prettier-ignore
  audit: ['record', 'record_id', 'act', 'person'],
  adjustment: ['kind', 'line_code', 'currency'],
  // The plan names tickets, kinds of fat and lots.
  batch: ['name', 'plan', 'state', 'started_on'],
  batch_sum: ['started_on', 'state'],
  belonging: ['kind'],
  belonging_end: ['went', 'ended_on'],
  bill: ['currency', 'billed_on'],
  bill_line: ['code', 'basis', 'unit'],
  brought_in: ['kind', 'file', 'sha256'],
  cooler: ['name'],
  cooler_log: ['file', 'sha256'],
  cooler_temperature: ['typed'],
  cooler_temperature_void: ['reason'],
  // Who decided is of the shop or of an authority.
  deviation: ['decided', 'decided_by'],
  disposal: ['disposed_on'],
  donation: ['program', 'typed', 'unit', 'pays_unit', 'currency', 'donated_on', 'why'],
  // Own fat is named by the program; the other columns belong to bought lots.
  draft: ['language', 'species', 'sex', 'kill_date', 'terms', 'details_removed_at'],
  draft_state: ['state'],
  fat_lot: ['code', 'source', 'name', 'cost_unit', 'supplier', 'supplier_lot', 'use_by', 'received_on'],
  fat_movement: ['kind', 'typed'],
  former_ticket: ['ticket'],
  grind_pass: ['temp_typed'],
  grinder_cleaning: ['cleaned_at'],
  hold_end: ['outcome'],
  hold_result: ['result', 'reported_on'],
  hunter: ['details_removed_at', 'language'],
  intake_cancel: ['stage_before'],
  instruction_template: ['name', 'carcass', 'body'],
  ingredient_version: ['name', 'kind', 'parts', 'allergens', 'strength_typed', 'nitrite_as', 'uses', 'note'],
  load: ['name', 'oven'],
  load_log: ['phase', 'probe', 'degrees', 'source', 'file', 'sha256'],
  load_reading: ['read_at', 'typed'],
  load_record: ['state'],
  load_verdict: ['cook', 'cooling', 'basis', 'body'],
  made_analysis: ['what', 'typed'],
  made_batch: ['name'],
  made_stage: ['stage', 'typed', 'unit', 'source'],
  // It names the recipe's meat and ingredients, and no owner.
  made_start: ['portion_typed', 'body'],
  made_weighed: ['typed', 'unit', 'lot', 'source'],
  part_none: ['part'],
  payment: ['kind', 'currency', 'paid_on'],
  pickup_notice: ['step', 'how', 'sent_on'],
  price_book: ['name', 'valid_from', 'currency', 'tax_rule'],
  price_line: [
    'code',
    'label',
    'basis',
    'unit',
    'species',
    'brought',
    'product',
    'fat_source',
    'products',
    'kinds',
  ],
  product: ['code', 'name', 'kind', 'body'],
  quote: ['name', 'species', 'made_on', 'valid_until'],
  recipe_version: ['name', 'product', 'body', 'reason'],
  release: ['released_on', 'unpaid_override'],
  release_mend: ['released_on'],
  season_taught: ['rule', 'body'],
  setting: ['key', 'value'],
  share: ['typed'],
  share_pickup: ['taken_on', 'unpaid_override'],
  share_split: ['basis'],
  species_profile: ['code', 'profile'],
  staff: ['initials', 'name'],
  staff_pin: ['initials', 'salt', 'hash'],
  station: ['secret_hash', 'origin', 'agent'],
  station_entry: ['entry', 'digest', 'call', 'person', 'typed_at'],
  station_line: ['line'],
  station_name: ['name', 'place', 'language'],
  station_state: ['state', 'reason'],
  station_write: ['call', 'record_id', 'person'],
  till_close: ['day', 'currency', 'typed', 'note'],
  till_close_entry: ['what'],
  till_close_void: ['reason'],
  till_float: ['day', 'currency', 'typed'],
  work_time: ['line_code'],
  weighing: ['stage', 'part', 'primal', 'typed', 'unit', 'tare_typed', 'tare_unit', 'source', 'scale'],
};
