/**
 * Every text column of the book, classified by whether it identifies a person.
 * `test/book/privacy/personal-text.test.ts` compares this list with the schema, so a new column must be added; the
 * removal of a hunter's details uses it.
 *
 * - `personal`: identifies a person by purpose (names, numbers, addresses).
 * - `may hold`: free text about a hunter's animals, batches or money, which may contain a name.
 * - `follows` (`other-text.ts`): maintained by triggers from one of these columns.
 * - `never` (`other-text.ts`): codes, dates, weights, names given by the shop, or text unrelated to a hunter's animal.
 */

/** The replacement for removed text that must not be empty. */
export const REMOVED = 'removed';

/** Rows that belong to the hunter `@id`. */
const ANIMALS = '(SELECT id FROM animal WHERE hunter_id = @id)';
const BATCHES = `(SELECT batch_id FROM batch_animal WHERE animal_id IN ${ANIMALS})`;
const OF_ANIMAL = `animal_id IN ${ANIMALS}`;
const OF_BATCH = `batch_id IN ${BATCHES}`;
/** The hunter's own weighings, and those of a batch without an animal: its packages and bought fat. */
const WEIGHED = `${OF_ANIMAL} OR (animal_id IS NULL AND ${OF_BATCH})`;
const WEIGHINGS = `(SELECT id FROM weighing WHERE ${WEIGHED})`;
/** Packages of a batch are identified by it as long as an animal of the batch is in the shop. */
const SOME_HERE = `SELECT 1 FROM batch_animal m JOIN animal a ON a.id = m.animal_id
  WHERE m.batch_id = weighing.batch_id AND a.stage NOT IN ('released', 'disposed')`;
const MADE = `(SELECT id FROM made_batch WHERE ${OF_BATCH})`;
const OF_MADE = `made_id IN ${MADE}`;
const LOADS = `(SELECT load_id FROM load_batch WHERE ${OF_MADE})`;
const LOGS = `(SELECT id FROM load_log WHERE load_id IN ${LOADS})`;
const READINGS = `(SELECT id FROM load_reading WHERE log_id IN ${LOGS})`;
const EXCLUSIONS = `(SELECT id FROM load_exclusion WHERE reading_id IN ${READINGS})`;
const DEVIATIONS = `(SELECT id FROM deviation WHERE ${OF_MADE} OR load_id IN ${LOADS})`;
const BILLS = `(SELECT id FROM bill WHERE ${OF_ANIMAL})`;
/** Of a row of `table` that was handed over to several: the name that took this hunter's part. */
const TAKER = (table: string, animal: string): string => `(SELECT p.given_to FROM share_pickup p
  WHERE p.animal_id = ${animal} AND p.hunter_id = @id AND instr(${table}.given_to, p.given_to) > 0
  ORDER BY length(p.given_to) DESC LIMIT 1)`;
/** Names of the other takers stay. */
const otherTakers = (table: string, animal: string): string =>
  `iif(${animal} IN ${ANIMALS}, '${REMOVED}', coalesce(replace(given_to, ${TAKER(table, animal)}, '${REMOVED}'), given_to))`;
const MENDED_ANIMAL = '(SELECT r.animal_id FROM release r WHERE r.id = release_mend.release_id)';
/** Of the hunter's own animals, and of those that the hunter took a part of. */
const RELEASED = `${OF_ANIMAL} OR ${TAKER('release', 'release.animal_id')} IS NOT NULL`;
const RELEASES = `(SELECT id FROM release WHERE ${OF_ANIMAL} OR animal_id IN (SELECT animal_id FROM share_pickup WHERE hunter_id = @id))`;
/** Of the hunter's own animals, and what the hunter paid for others'. */
const PAID = `${OF_ANIMAL} OR hunter_id = @id`;
const BELONGINGS = `(SELECT id FROM belonging WHERE ${OF_ANIMAL})`;
const BELONGING_ENDS = `(SELECT id FROM belonging_end WHERE belonging_id IN ${BELONGINGS})`;
/** Parts of the hunter's own animals, and the hunter's part of others'. */
const SHARE_PICKUPS = `(SELECT id FROM share_pickup WHERE hunter_id = @id OR ${OF_ANIMAL})`;
/** Of the hunter's animals, and those that became no ticket by the hunter's name. */
const DRAFTS = `(SELECT d.id FROM draft d LEFT JOIN draft_state s ON s.draft_id = d.id AND s.state = 'taken'
  WHERE s.animal_id IN ${ANIMALS}
    OR (s.id IS NULL AND name_key_of(d.name) = (SELECT name_key FROM hunter WHERE id = @id)))`;
const HOLDS = `(SELECT id FROM hold WHERE ${OF_ANIMAL})`;
/** A quote given by phone may have the hunter's name only. */
const QUOTES = `hunter_id = @id OR id IN (SELECT quote_id FROM quote_taken WHERE ${OF_ANIMAL})
  OR (hunter_id IS NULL AND trim(hunter_name) <> '' AND name_key_of(hunter_name) = (SELECT name_key FROM hunter WHERE id = @id))`;
/** Audit rows of an animal from the time under the hunter's name, up to the correction of its owner. */
export const WAS_OWNED = `record = 'animal' AND (before ->> '$.hunter_id' = @id OR after ->> '$.hunter_id' = @id)`;
const AUDITED = `(record = 'hunter' AND record_id = (SELECT CAST(id AS TEXT) FROM hunter WHERE id = @id))
  OR (record = 'animal' AND (record_id IN (SELECT CAST(id AS TEXT) FROM animal WHERE hunter_id = @id)
    OR (record_id IN (SELECT record_id FROM audit WHERE ${WAS_OWNED})
      AND id <= (SELECT max(n.id) FROM audit n WHERE n.record = 'animal' AND n.record_id = audit.record_id
        AND (n.before ->> '$.hunter_id' = @id OR n.after ->> '$.hunter_id' = @id)))))
  OR (record = 'weighing' AND record_id IN (SELECT CAST(id AS TEXT) FROM weighing WHERE id IN ${WEIGHINGS}))
  OR (record = 'batch' AND record_id IN (SELECT CAST(batch_id AS TEXT) FROM batch_animal WHERE ${OF_ANIMAL}))
  OR (record = 'bill' AND record_id IN (SELECT CAST(id AS TEXT) FROM bill WHERE ${OF_ANIMAL}))
  OR (record = 'payment' AND record_id IN (SELECT CAST(id AS TEXT) FROM payment WHERE ${PAID}))`;

interface PersonalTable {
  /** SQL condition: the rows of the hunter `@id`. */
  rows: string;
  /** Column → its class, and the SQL expression of its replacement. */
  columns: Readonly<Record<string, readonly ['personal' | 'may hold', becomes: string]>>;
}

const blank = "''";
const removed = `'${REMOVED}'`;
/** Whether text existed is kept: sums and questions depend on it. */
const removedUnlessEmpty = (column: string): string => `iif(${column} = '', '', '${REMOVED}')`;

/** The reasons of voided rows. */
const voidsOf = (column: string, voided: string): PersonalTable => ({
  rows: `${column} IN ${voided}`,
  columns: { reason: ['may hold', removed] },
});

/**
 * Columns that are cleared, in this order: a column that others are found by is cleared after them. `other_word`,
 * `other_words`, `audit_facts` and `name_key_of` are functions of `remove-details.ts`.
 */
export const PERSONAL_TEXT: Readonly<Record<string, PersonalTable>> = {
  audit: {
    rows: AUDITED,
    columns: {
      before: ['may hold', 'audit_facts(before)'],
      after: ['may hold', 'audit_facts(after)'],
      reason: ['may hold', removedUnlessEmpty('reason')],
    },
  },
  // A refusal may name whom it is about. Which hunter that is cannot be told, so every one loses its values.
  station_entry: {
    rows: "json_type(answer, '$.problem.with') IS NOT NULL",
    columns: { answer: ['may hold', "json_remove(answer, '$.problem.with')"] },
  },
  quote: {
    rows: QUOTES,
    columns: {
      hunter_name: ['personal', blank],
      asked: ['may hold', 'other_words(asked)'],
      answered: ['may hold', 'other_words(answered)'],
    },
  },
  draft_state: {
    rows: `draft_id IN ${DRAFTS}`,
    columns: { reason: ['may hold', removedUnlessEmpty('reason')] },
  },
  draft: {
    rows: `id IN ${DRAFTS}`,
    columns: {
      name: ['personal', removed],
      phone: ['personal', blank],
      licence: ['personal', blank],
      tag: ['personal', blank],
      kill_area: ['may hold', removedUnlessEmpty('kill_area')],
      instructions: ['may hold', 'NULL'],
      signature: ['personal', blank],
    },
  },
  hold_end: { rows: `hold_id IN ${HOLDS}`, columns: { note: ['may hold', removedUnlessEmpty('note')] } },
  hold_result: {
    rows: `hold_id IN ${HOLDS}`,
    columns: {
      sample: ['personal', removedUnlessEmpty('sample')],
      lab: ['may hold', removedUnlessEmpty('lab')],
      note: ['may hold', removedUnlessEmpty('note')],
      reason: ['may hold', removedUnlessEmpty('reason')],
    },
  },
  hold: {
    rows: OF_ANIMAL,
    columns: {
      reason: ['may hold', `iif(reason IN ('sample', 'positive'), reason, ${removed})`],
      sample: ['personal', removedUnlessEmpty('sample')],
    },
  },
  instruction: { rows: OF_ANIMAL, columns: { body: ['may hold', 'other_words(body)'] } },
  cooler_stay: { rows: OF_ANIMAL, columns: { place: ['may hold', blank] } },
  part_none_void: voidsOf('none_id', `(SELECT id FROM part_none WHERE ${OF_ANIMAL})`),
  weighing_void: voidsOf('weighing_id', WEIGHINGS),
  fat_movement: {
    rows: `lot_id IN (SELECT id FROM fat_lot WHERE ${OF_ANIMAL})`,
    columns: { note: ['may hold', removedUnlessEmpty('note')] },
  },
  weighing: {
    rows: WEIGHED,
    columns: {
      product: ['may hold', 'other_word(product)'],
      place: ['may hold', `iif(EXISTS (${SOME_HERE}), place, NULL)`],
      note: ['may hold', removedUnlessEmpty('note')],
    },
  },
  grind_pass: { rows: OF_BATCH, columns: { plate: ['may hold', removed] } },
  fat_test: { rows: OF_BATCH, columns: { method: ['may hold', removed] } },
  grinder_cleaning_void: {
    rows: `cleaning_id IN (SELECT id FROM grinder_cleaning WHERE ${OF_BATCH})`,
    columns: { reason: ['may hold', removed] },
  },
  grinder_cleaning: { rows: OF_BATCH, columns: { how: ['may hold', removed] } },
  batch: { rows: `id IN ${BATCHES}`, columns: { product: ['may hold', 'other_word(product)'] } },
  made_batch_void: voidsOf('made_id', MADE),
  made_weighed_void: voidsOf('weighed_id', `(SELECT id FROM made_weighed WHERE ${OF_MADE})`),
  made_stage_void: voidsOf('stage_id', `(SELECT id FROM made_stage WHERE ${OF_MADE})`),
  made_analysis_void: voidsOf('analysis_id', `(SELECT id FROM made_analysis WHERE ${OF_MADE})`),
  made_analysis: { rows: OF_MADE, columns: { method: ['may hold', removedUnlessEmpty('method')] } },
  load_batch_void: voidsOf('load_batch_id', `(SELECT id FROM load_batch WHERE ${OF_MADE})`),
  load_record: {
    rows: `load_id IN ${LOADS}`,
    columns: {
      body: [
        'may hold',
        `iif(coalesce(body ->> '$.note', '') = '', body, json_set(body, '$.note', ${removed}))`,
      ],
      reason: ['may hold', removedUnlessEmpty('reason')],
    },
  },
  load_log_void: voidsOf('log_id', LOGS),
  load_exclusion_void: voidsOf('exclusion_id', EXCLUSIONS),
  load_exclusion: { rows: `reading_id IN ${READINGS}`, columns: { reason: ['may hold', removed] } },
  deviation_void: voidsOf('deviation_id', DEVIATIONS),
  deviation: { rows: `id IN ${DEVIATIONS}`, columns: { note: ['may hold', removed] } },
  bill_void: voidsOf('bill_id', BILLS),
  adjustment_void: voidsOf('adjustment_id', `(SELECT id FROM adjustment WHERE ${OF_ANIMAL})`),
  adjustment: {
    rows: OF_ANIMAL,
    columns: {
      label: ['may hold', removedUnlessEmpty('label')],
      product: ['may hold', 'other_word(product)'],
      reason: ['may hold', removed],
    },
  },
  work_time_void: voidsOf('work_time_id', `(SELECT id FROM work_time WHERE ${OF_ANIMAL})`),
  // Copied from the price book, but for what was adjusted for one animal.
  bill_line: {
    rows: `bill_id IN ${BILLS}`,
    columns: { label: ['may hold', `iif(code LIKE 'adjustment-%', ${removed}, label)`] },
  },
  bill: { rows: OF_ANIMAL, columns: { amounts: ['may hold', 'other_words(amounts)'] } },
  payment_void: voidsOf('payment_id', `(SELECT id FROM payment WHERE ${PAID})`),
  payment: {
    rows: PAID,
    columns: {
      method: ['may hold', "iif(method IN ('cash', 'card', 'check', 'transfer'), method, 'other')"],
      reference: ['personal', removedUnlessEmpty('reference')],
    },
  },
  affected_note_void: voidsOf('note_id', `(SELECT id FROM affected_note WHERE ${OF_ANIMAL})`),
  affected_note: { rows: OF_ANIMAL, columns: { note: ['may hold', removedUnlessEmpty('note')] } },
  call_note: { rows: OF_ANIMAL, columns: { text: ['may hold', removed] } },
  release_void: voidsOf('release_id', RELEASES),
  release_mend: {
    rows: `release_id IN ${RELEASES}`,
    columns: { given_to: ['personal', otherTakers('release_mend', MENDED_ANIMAL)] },
  },
  release: {
    rows: RELEASED,
    columns: {
      given_to: ['personal', otherTakers('release', 'release.animal_id')],
      note: ['may hold', removedUnlessEmpty('note')],
    },
  },
  disposal_void: voidsOf('disposal_id', `(SELECT id FROM disposal WHERE ${OF_ANIMAL})`),
  disposal: {
    rows: OF_ANIMAL,
    columns: {
      what: ['may hold', removedUnlessEmpty('what')],
      how: ['may hold', removedUnlessEmpty('how')],
      reason: ['may hold', removedUnlessEmpty('reason')],
    },
  },
  intake_cancel_void: voidsOf('cancel_id', `(SELECT id FROM intake_cancel WHERE ${OF_ANIMAL})`),
  intake_cancel: { rows: OF_ANIMAL, columns: { reason: ['may hold', removed] } },
  belonging_end_void: voidsOf('end_id', BELONGING_ENDS),
  belonging_end: {
    rows: `id IN ${BELONGING_ENDS}`,
    columns: {
      name: ['personal', removedUnlessEmpty('name')],
      receipt: ['personal', removedUnlessEmpty('receipt')],
      note: ['may hold', removedUnlessEmpty('note')],
    },
  },
  belonging_void: voidsOf('belonging_id', BELONGINGS),
  belonging: {
    rows: OF_ANIMAL,
    columns: {
      tag: ['personal', blank],
      place: ['may hold', blank],
      note: ['may hold', removedUnlessEmpty('note')],
    },
  },
  share_pickup_void: voidsOf('pickup_id', SHARE_PICKUPS),
  share_pickup: {
    rows: `id IN ${SHARE_PICKUPS}`,
    columns: { given_to: ['personal', removed], packages: ['may hold', 'other_words(packages)'] },
  },
  share_split: { rows: OF_ANIMAL, columns: { reason: ['may hold', removedUnlessEmpty('reason')] } },
  donation_void: voidsOf('donation_id', `(SELECT id FROM donation WHERE ${OF_ANIMAL})`),
  donation: {
    rows: OF_ANIMAL,
    columns: {
      confirmation: ['may hold', removedUnlessEmpty('confirmation')],
      note: ['may hold', removedUnlessEmpty('note')],
    },
  },
  unprocessed_void: voidsOf('unprocessed_id', `(SELECT id FROM unprocessed WHERE ${OF_ANIMAL})`),
  unprocessed: { rows: OF_ANIMAL, columns: { reason: ['may hold', removed] } },
  photograph_void: voidsOf('photograph_id', `(SELECT id FROM photograph WHERE ${OF_ANIMAL})`),
  pickup_notice_void: voidsOf('notice_id', `(SELECT id FROM pickup_notice WHERE ${OF_ANIMAL})`),
  pickup_notice: { rows: OF_ANIMAL, columns: { note: ['may hold', removedUnlessEmpty('note')] } },
  animal: {
    rows: 'hunter_id = @id',
    columns: {
      deliverer_name: ['personal', blank],
      deliverer_address: ['personal', blank],
      licence: ['personal', blank],
      tag: ['personal', blank],
      old_number: ['may hold', blank],
      kill_area: ['may hold', removedUnlessEmpty('kill_area')],
      condition: ['may hold', removedUnlessEmpty('condition')],
      damage: ['may hold', removedUnlessEmpty('damage')],
    },
  },
  hunter: {
    rows: 'id = @id',
    columns: {
      name: ['personal', `'${REMOVED} ' || id`],
      name_key: ['personal', `'${REMOVED} ' || id`],
      phone: ['personal', blank],
      phone_key: ['personal', blank],
      email: ['personal', blank],
      address: ['personal', blank],
      licence: ['personal', blank],
      note: ['may hold', blank],
    },
  },
};
