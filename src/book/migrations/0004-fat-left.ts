/** What is left of each lot of fat, kept up by a trigger: a shop looks at its fat all day, and has had thousands of lots. */
export const fatLeft = `
CREATE VIEW fat_lot_sum_now AS
  SELECT l.id AS lot_id, coalesce((SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = l.id), 0.0) AS left_grams,
    coalesce((SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = l.id AND m.kind IN ('bought', 'saved')), 0.0) AS start_grams
  FROM fat_lot l;

CREATE TABLE fat_lot_sum (
  lot_id INTEGER PRIMARY KEY REFERENCES fat_lot (id),
  left_grams REAL NOT NULL,
  start_grams REAL NOT NULL
) STRICT;
CREATE INDEX fat_lot_sum_by_left ON fat_lot_sum (left_grams) WHERE left_grams > 0;

INSERT INTO fat_lot_sum SELECT * FROM fat_lot_sum_now;

CREATE TRIGGER fat_lot_sum_of_new AFTER INSERT ON fat_lot BEGIN
  INSERT OR REPLACE INTO fat_lot_sum SELECT * FROM fat_lot_sum_now WHERE lot_id = NEW.id;
END;
CREATE TRIGGER fat_lot_sum_of_moved AFTER INSERT ON fat_movement BEGIN
  INSERT OR REPLACE INTO fat_lot_sum SELECT * FROM fat_lot_sum_now WHERE lot_id = NEW.lot_id;
END;

DROP VIEW fat_on_hand;
CREATE VIEW fat_on_hand AS
  SELECT l.*, s.left_grams, s.start_grams FROM fat_lot l JOIN fat_lot_sum s ON s.lot_id = l.id;
`;
