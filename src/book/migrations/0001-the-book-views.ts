/** The first book, second half: indexes, the views that show the current state, and the triggers that keep rows as written. */
export const theBookViews = `
CREATE INDEX hunter_by_name ON hunter (name_key);
CREATE INDEX hunter_by_phone ON hunter (phone_key);
CREATE INDEX animal_by_hunter ON animal (hunter_id);
CREATE INDEX animal_by_stage ON animal (stage, received_on);
CREATE INDEX animal_by_species ON animal (species, season);
CREATE INDEX weighing_by_animal ON weighing (animal_id, stage, part);
CREATE INDEX weighing_by_batch ON weighing (batch_id, stage);
CREATE INDEX fat_movement_by_lot ON fat_movement (lot_id);
CREATE INDEX fat_movement_by_weighing ON fat_movement (weighing_id);
CREATE INDEX batch_animal_by_animal ON batch_animal (animal_id);
CREATE INDEX hold_by_animal ON hold (animal_id);
CREATE INDEX instruction_by_animal ON instruction (animal_id);
CREATE INDEX grind_pass_by_batch ON grind_pass (batch_id);
CREATE INDEX fat_test_by_batch ON fat_test (batch_id);
CREATE INDEX payment_by_animal ON payment (animal_id);
CREATE INDEX call_note_by_animal ON call_note (animal_id);
CREATE INDEX bill_by_animal ON bill (animal_id);
CREATE INDEX cooler_temperature_by_cooler ON cooler_temperature (cooler_id, at);
CREATE INDEX audit_by_record ON audit (record, record_id);

-- Weighings that count: not voided.
CREATE VIEW weighing_now AS
  SELECT w.* FROM weighing w WHERE NOT EXISTS (SELECT 1 FROM weighing_void v WHERE v.weighing_id = w.id);

-- Temperatures that count: not taken back.
CREATE VIEW cooler_temperature_now AS
  SELECT t.* FROM cooler_temperature t
  WHERE NOT EXISTS (SELECT 1 FROM cooler_temperature_void v WHERE v.temperature_id = t.id);

CREATE VIEW hold_now AS
  SELECT h.* FROM hold h WHERE NOT EXISTS (SELECT 1 FROM hold_end e WHERE e.hold_id = h.id AND e.outcome <> 'positive');

CREATE VIEW fat_on_hand AS
  SELECT l.*, coalesce((SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = l.id), 0.0) AS left_grams,
    coalesce((SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = l.id AND m.kind IN ('bought', 'saved')), 0.0) AS start_grams
  FROM fat_lot l;

-- What the weighings of one animal add up to, in grams. The sums that season, quote and table all read.
CREATE VIEW animal_weight AS
  SELECT animal_id,
    sum(iif(stage = 'received', grams, NULL)) AS received,
    sum(iif(stage = 'hanging', grams, NULL)) AS hanging,
    sum(iif(stage = 'cut' AND part = 'whole cuts', grams, NULL)) AS whole_cuts,
    sum(iif(stage = 'cut' AND part = 'trim', grams, NULL)) AS trim,
    sum(iif(stage = 'cut' AND part = 'fat saved', grams, NULL)) AS fat_saved,
    sum(iif(stage = 'cut' AND part = 'sinew', grams, NULL)) AS sinew,
    sum(iif(stage = 'cut' AND part = 'bone', grams, NULL)) AS bone,
    sum(iif(stage = 'cut' AND part = 'damage', grams, NULL)) AS damage,
    sum(iif(stage = 'grinder' AND part = 'trim', grams, 0.0)) AS trim_ground,
    sum(iif(stage = 'grinder' AND part = 'fat saved', grams, 0.0)) AS own_fat_ground,
    sum(iif(stage = 'packed', grams, NULL)) AS packed
  FROM weighing_now WHERE animal_id IS NOT NULL GROUP BY animal_id;
`;

/** Rows of these tables are written once: a correction is another row. */
export const APPEND_ONLY = [
  'weighing',
  'weighing_void',
  'fat_movement',
  'price_book',
  'price_line',
  'quote',
  'quote_taken',
  'bill',
  'bill_line',
  'bill_void',
  'payment',
  'payment_void',
  'call_note',
  'release',
  'disposal',
  'hold',
  'hold_end',
  'instruction',
  'grind_pass',
  'fat_test',
  'cooler_temperature',
  'cooler_temperature_void',
  'audit',
] as const;

export const appendOnlyTriggers = APPEND_ONLY.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');
