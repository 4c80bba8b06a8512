/**
 * A hold may be lifted after a result on it was taken back. Before, such a hold lasted for ever: the first lifting counted for
 * nothing, and a second one broke on the key. So a hold may end more than once, and the last time counts.
 *
 * What came into a lot of fat is what was bought or saved and not voided. Before, a weight of saved fat that was corrected
 * counted with the one that it corrects, and more could be counted there than there ever was.
 */
const writtenOnce = (['UPDATE', 'DELETE'] as const)
  .map(
    (verb) => `CREATE TRIGGER hold_end_no_${verb.toLowerCase()} BEFORE ${verb} ON hold_end
  BEGIN SELECT RAISE(ABORT, 'hold_end is written once'); END;`,
  )
  .join('\n');

export const holdsAndFat = `
DROP VIEW hold_now;
CREATE TABLE old_hold_end AS SELECT * FROM hold_end;
DROP TABLE hold_end;

CREATE TABLE hold_end (
  id INTEGER PRIMARY KEY,
  hold_id INTEGER NOT NULL REFERENCES hold (id),
  outcome TEXT NOT NULL CHECK (outcome IN ('cleared', 'positive', 'withdrawn')),
  note TEXT NOT NULL,
  at TEXT NOT NULL,
  by TEXT NOT NULL
) STRICT;
CREATE INDEX hold_end_by_hold ON hold_end (hold_id);

INSERT INTO hold_end (hold_id, outcome, note, at, by) SELECT hold_id, outcome, note, at, by FROM old_hold_end ORDER BY at, hold_id;
DROP TABLE old_hold_end;

${writtenOnce}

-- Holds that last: what the laboratory said last decides; where it said nothing, or that was taken back, whether it was lifted.
CREATE VIEW hold_now AS
  SELECT h.id, h.animal_id, h.reason, h.sample, h.at, h.by,
    (coalesce(r.result, e.outcome) IS 'positive') AS positive
  FROM hold h
  LEFT JOIN hold_end e ON e.id = (SELECT max(n.id) FROM hold_end n WHERE n.hold_id = h.id)
  LEFT JOIN hold_result r ON r.id = (SELECT max(n.id) FROM hold_result n WHERE n.hold_id = h.id)
  WHERE CASE
    WHEN r.result = 'positive' THEN 1
    WHEN r.result = 'not detected' THEN 0
    WHEN e.outcome = 'withdrawn' THEN 0
    WHEN r.result = 'none' THEN 1
    ELSE e.id IS NULL OR e.outcome = 'positive' END;

DROP VIEW fat_lot_sum_now;
CREATE VIEW fat_lot_sum_now AS
  SELECT l.id AS lot_id, coalesce((SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = l.id), 0.0) AS left_grams,
    coalesce((SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = l.id AND (m.kind IN ('bought', 'saved')
      OR m.kind = 'voided' AND m.weighing_id IN (SELECT s.weighing_id FROM fat_movement s WHERE s.lot_id = l.id AND s.kind = 'saved'))), 0.0) AS start_grams
  FROM fat_lot l;
INSERT OR REPLACE INTO fat_lot_sum SELECT * FROM fat_lot_sum_now;
`;
