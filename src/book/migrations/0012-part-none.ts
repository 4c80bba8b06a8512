/**
 * That there is none of a part, stated by a person. A part that nobody weighed stays unknown (NULL); one that was stated to
 * be none counts as 0 in the animal's sums, unless it was weighed all the same.
 */
const WRITTEN_ONCE = ['part_none', 'part_none_void'];

const writtenOnce = WRITTEN_ONCE.flatMap((table) =>
  (['UPDATE', 'DELETE'] as const).map(
    (verb) => `CREATE TRIGGER ${table}_no_${verb.toLowerCase()} BEFORE ${verb} ON ${table}
  BEGIN SELECT RAISE(ABORT, '${table} is written once'); END;`,
  ),
).join('\n');

const statedNone = (part: string): string =>
  `(SELECT 0.0 FROM part_none_now n WHERE n.animal_id = a.id AND n.part = '${part}' LIMIT 1)`;
const weighed = (part: string): string => `sum(iif(w.stage = 'cut' AND w.part = '${part}', w.grams, NULL))`;
/** SQL: what was weighed of a part at the Table, else 0 where somebody stated that there is none, else NULL. */
const orNone = (part: string): string => `coalesce(${weighed(part)}, ${statedNone(part)})`;

export const partNone = `
CREATE TABLE part_none (
  id INTEGER PRIMARY KEY,
  animal_id INTEGER NOT NULL REFERENCES animal (id),
  part TEXT NOT NULL CHECK (part IN ('fat saved', 'sinew', 'bone', 'damage')),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX part_none_by_animal ON part_none (animal_id, part);

CREATE TABLE part_none_void (
  none_id INTEGER PRIMARY KEY REFERENCES part_none (id),
  reason TEXT NOT NULL CHECK (length(reason) > 0),
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;

${writtenOnce}

-- Statements that count: not voided.
CREATE VIEW part_none_now AS
  SELECT n.* FROM part_none n WHERE NOT EXISTS (SELECT 1 FROM part_none_void v WHERE v.none_id = n.id);

-- A file of animals or weights may state it too, and is undone as a whole.
ALTER TABLE brought_in ADD COLUMN part_none_first INTEGER;
ALTER TABLE brought_in ADD COLUMN part_none_last INTEGER;

-- As in step 2, with what was stated.
DROP VIEW animal_sum_now;
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
    -- Own fat that went into the grinder was weighed there.
    coalesce(${weighed('fat saved')},
      iif(sum(iif(w.stage = 'grinder' AND w.part = 'fat saved', w.grams, 0.0)) = 0, ${statedNone('fat saved')}, NULL)) AS fat_saved,
    ${orNone('sinew')} AS sinew,
    ${orNone('bone')} AS bone,
    ${orNone('damage')} AS damage,
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

CREATE TRIGGER animal_sum_of_none AFTER INSERT ON part_none BEGIN
  INSERT INTO animal_to_add_up VALUES (NEW.animal_id);
END;
CREATE TRIGGER animal_sum_of_none_voided AFTER INSERT ON part_none_void BEGIN
  INSERT INTO animal_to_add_up SELECT n.animal_id FROM part_none n WHERE n.id = NEW.none_id;
END;
`;
