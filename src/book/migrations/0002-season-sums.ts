/**
 * What the season's charts read: one row for each animal with what its weighings add up to, kept up by triggers, and for
 * each batch, so that no chart adds up weighings. Each table is always its view (`..._now`) written down; deleting and
 * filling it again loses nothing.
 */
export const seasonSums = `
-- The weight that shares are shares of, and what goes home; NULL while it is not known. See DEVELOPERS.md, "Sums".
CREATE VIEW animal_sum_now AS
WITH summed AS (
  -- As in animal_weight, but from the animal on: one with nothing weighed has a row too.
  SELECT a.id AS animal_id, a.season, a.species, a.brought, a.sex, a.age, a.detail, a.stage, a.received_on, a.ready_on,
    a.damage AS damage_note,
    min(iif(w.stage IN ('primal', 'cut', 'packed'), w.at, NULL)) AS cut_at,
    sum(iif(w.stage = 'received', w.grams, NULL)) AS received,
    sum(iif(w.stage = 'hanging', w.grams, NULL)) AS hanging,
    sum(iif(w.stage = 'cut' AND w.part = 'whole cuts', w.grams, NULL)) AS whole_cuts,
    sum(iif(w.stage = 'cut' AND w.part = 'trim', w.grams, NULL)) AS trim,
    sum(iif(w.stage = 'cut' AND w.part = 'fat saved', w.grams, NULL)) AS fat_saved,
    sum(iif(w.stage = 'cut' AND w.part = 'sinew', w.grams, NULL)) AS sinew,
    sum(iif(w.stage = 'cut' AND w.part = 'bone', w.grams, NULL)) AS bone,
    sum(iif(w.stage = 'cut' AND w.part = 'damage', w.grams, NULL)) AS damage,
    sum(iif(w.stage = 'grinder' AND w.part = 'trim', w.grams, 0.0)) AS trim_ground,
    sum(iif(w.stage = 'grinder' AND w.part = 'fat saved', w.grams, 0.0)) AS own_fat_ground,
    sum(iif(w.stage = 'packed', w.grams, NULL)) AS packed
  FROM animal a LEFT JOIN weighing w ON w.animal_id = a.id
    AND NOT EXISTS (SELECT 1 FROM weighing_void v WHERE v.weighing_id = w.id)
  GROUP BY a.id
), weighed AS (
  SELECT *, iif(damage_note <> '' OR damage > 0, 1, 0) AS damaged,
    (SELECT c.by FROM weighing_now c WHERE c.animal_id = summed.animal_id AND c.stage IN ('cut', 'packed') AND c.by <> ''
      GROUP BY c.by ORDER BY count(*) DESC, c.by LIMIT 1) AS cutter,
    iif(brought IN ('whole', 'skinned'),
      coalesce(hanging, iif(brought = 'skinned', received, NULL)), coalesce(received, hanging)) AS base,
    -- Steaks packed without being weighed at the Table count by their packages, but only when the grind went through a batch.
    coalesce(whole_cuts, iif(trim_ground > 0, packed, NULL)) AS cuts,
    coalesce(fat_saved, own_fat_ground) AS own_fat
  FROM summed
), gave AS (
  SELECT *, CASE
    -- Steaks were only packed, and their trim still waits for the grinder.
    WHEN whole_cuts IS NULL AND trim IS NOT NULL AND trim_ground = 0 THEN NULL
    WHEN cuts IS NOT NULL OR trim IS NOT NULL THEN coalesce(cuts, 0.0) + coalesce(trim, trim_ground) + own_fat
    WHEN packed IS NOT NULL OR trim_ground > 0 THEN coalesce(packed, 0.0) + trim_ground + own_fat
    END AS take_home,
    iif(stage IN ('packing', 'ready', 'released') AND coalesce(hanging, received) IS NOT NULL, 1, 0) AS finished
  FROM weighed
)
SELECT animal_id, season, species, brought, sex, age, detail, stage, received_on, ready_on, damaged, cutter, cut_at,
  received, hanging, whole_cuts, trim, fat_saved, sinew, bone, damage, trim_ground, own_fat_ground, packed, base, take_home,
  finished, iif(finished = 1 AND brought IN ('whole', 'skinned') AND base > 0, take_home / base, NULL) AS share
FROM gave;

CREATE TABLE animal_sum (
  animal_id INTEGER PRIMARY KEY REFERENCES animal (id),
  season INTEGER NOT NULL,
  species TEXT NOT NULL,
  brought TEXT NOT NULL,
  sex TEXT NOT NULL,
  age TEXT NOT NULL,
  detail TEXT NOT NULL,
  stage TEXT NOT NULL,
  received_on TEXT NOT NULL,
  ready_on TEXT,
  damaged INTEGER NOT NULL,
  -- Who weighed most of its parts and packages.
  cutter TEXT,
  -- Moment of the first part or package on the scale: it left the hook.
  cut_at TEXT,
  received REAL,
  hanging REAL,
  whole_cuts REAL,
  trim REAL,
  fat_saved REAL,
  sinew REAL,
  bone REAL,
  damage REAL,
  trim_ground REAL NOT NULL,
  own_fat_ground REAL NOT NULL,
  packed REAL,
  base REAL,
  take_home REAL,
  finished INTEGER NOT NULL,
  share REAL
) STRICT;

CREATE INDEX animal_sum_by_season ON animal_sum (season, species);
-- Holds all that a view filters by, so that medians of every season are read off the index alone.
CREATE INDEX animal_sum_by_share ON animal_sum (species, season, share, brought, sex, age, damaged, detail, cutter, received_on)
  WHERE share IS NOT NULL;

-- What went into each batch by what it came from: an animal's trim (no lot), its own saved fat (animal and lot), bought
-- fat (no animal). 0 stands for none.
CREATE TABLE batch_source_sum (
  batch_id INTEGER NOT NULL REFERENCES batch (id),
  animal_id INTEGER NOT NULL,
  fat_lot_id INTEGER NOT NULL,
  grams REAL NOT NULL,
  PRIMARY KEY (batch_id, animal_id, fat_lot_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX batch_source_sum_by_animal ON batch_source_sum (animal_id) WHERE animal_id > 0;

CREATE VIEW batch_source_sum_now AS
  SELECT batch_id, coalesce(animal_id, 0) AS animal_id, coalesce(fat_lot_id, 0) AS fat_lot_id, sum(grams) AS grams
  FROM weighing_now WHERE stage = 'grinder' AND batch_id IS NOT NULL GROUP BY 1, 2, 3;

CREATE VIEW batch_sum_now AS
  SELECT b.id AS batch_id, b.season, b.started_on, b.product, b.state,
    coalesce((SELECT sum(s.grams) FROM batch_source_sum s WHERE s.batch_id = b.id AND s.animal_id > 0), 0.0) AS own,
    coalesce((SELECT sum(s.grams) FROM batch_source_sum s WHERE s.batch_id = b.id AND s.animal_id = 0), 0.0) AS bought,
    coalesce((SELECT sum(w.grams) FROM weighing_now w WHERE w.batch_id = b.id AND w.stage = 'packed'), 0.0) AS out
  FROM batch b;

-- Meat of the owners' animals in (with their own fat), bought fat in, packages out, in grams.
CREATE TABLE batch_sum (
  batch_id INTEGER PRIMARY KEY REFERENCES batch (id),
  season INTEGER NOT NULL,
  started_on TEXT NOT NULL,
  product TEXT NOT NULL,
  state TEXT NOT NULL,
  own REAL NOT NULL,
  bought REAL NOT NULL,
  out REAL NOT NULL
) STRICT;
CREATE INDEX batch_sum_by_season ON batch_sum (season);

CREATE INDEX weighing_by_lot ON weighing (fat_lot_id) WHERE fat_lot_id IS NOT NULL;
CREATE INDEX batch_by_season ON batch (season);
CREATE INDEX animal_by_number ON animal (number);

INSERT INTO batch_source_sum SELECT * FROM batch_source_sum_now;
INSERT INTO batch_sum SELECT * FROM batch_sum_now;

INSERT INTO animal_sum SELECT * FROM animal_sum_now;

CREATE TRIGGER animal_sum_of_new AFTER INSERT ON animal BEGIN
  INSERT OR REPLACE INTO animal_sum SELECT * FROM animal_sum_now WHERE animal_id = NEW.id;
END;
CREATE TRIGGER animal_sum_of_changed AFTER UPDATE ON animal BEGIN
  INSERT OR REPLACE INTO animal_sum SELECT * FROM animal_sum_now WHERE animal_id = NEW.id;
END;
CREATE TRIGGER animal_sum_of_weighed AFTER INSERT ON weighing WHEN NEW.animal_id IS NOT NULL BEGIN
  INSERT OR REPLACE INTO animal_sum SELECT * FROM animal_sum_now WHERE animal_id = NEW.animal_id;
END;

-- Touches the animal: only an id that is at hand, as a trigger's own row has it, is looked up without adding up all others.
CREATE TRIGGER animal_sum_of_voided AFTER INSERT ON weighing_void BEGIN
  UPDATE animal SET stage = stage WHERE id = (SELECT w.animal_id FROM weighing w WHERE w.id = NEW.weighing_id);
END;

CREATE TRIGGER batch_sum_of_new AFTER INSERT ON batch BEGIN
  INSERT OR REPLACE INTO batch_sum SELECT * FROM batch_sum_now WHERE batch_id = NEW.id;
END;
CREATE TRIGGER batch_sum_of_changed AFTER UPDATE ON batch BEGIN
  DELETE FROM batch_source_sum WHERE batch_id = NEW.id;
  INSERT INTO batch_source_sum SELECT * FROM batch_source_sum_now WHERE batch_id = NEW.id;
  INSERT OR REPLACE INTO batch_sum SELECT * FROM batch_sum_now WHERE batch_id = NEW.id;
END;
CREATE TRIGGER batch_sum_of_weighed AFTER INSERT ON weighing WHEN NEW.batch_id IS NOT NULL BEGIN
  DELETE FROM batch_source_sum WHERE batch_id = NEW.batch_id;
  INSERT INTO batch_source_sum SELECT * FROM batch_source_sum_now WHERE batch_id = NEW.batch_id;
  INSERT OR REPLACE INTO batch_sum SELECT * FROM batch_sum_now WHERE batch_id = NEW.batch_id;
END;
CREATE TRIGGER batch_sum_of_voided AFTER INSERT ON weighing_void BEGIN
  UPDATE batch SET state = state WHERE id = (SELECT w.batch_id FROM weighing w WHERE w.id = NEW.weighing_id);
END;
`;
