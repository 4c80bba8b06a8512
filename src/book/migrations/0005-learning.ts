/** What the yield model learns from, kept at hand: the orders beside the weights, and finished seasons boiled down to sums. */
export const learning = `
-- Share of the meat that was to stay whole by the newest instructions, NULL without any; and of what was packed at the
-- Table, the grams that they grind.
CREATE VIEW cut_sum_now AS
  SELECT i.animal_id, i.body ->> '$.cutsShare' AS cuts_ordered,
    coalesce((SELECT sum(p.grams) FROM weighing_now p
      WHERE p.animal_id = i.animal_id AND p.stage = 'packed' AND (p.product = i.body ->> '$.grindProduct'
        OR p.product IN (SELECT g.value ->> '$.product' FROM json_each(i.body, '$.alsoGround') g))), 0.0) AS packed_ground
  FROM instruction i WHERE i.id = (SELECT max(n.id) FROM instruction n WHERE n.animal_id = i.animal_id);

CREATE TABLE cut_sum (
  animal_id INTEGER PRIMARY KEY REFERENCES animal (id),
  cuts_ordered REAL,
  packed_ground REAL NOT NULL
) STRICT;

-- What a season's finished animals teach, as JSON in the desk's shape; rule says by which rules it was boiled down.
-- Only a convenience: what is not here is learned from the weighings again.
CREATE TABLE season_taught (
  season INTEGER PRIMARY KEY,
  rule TEXT NOT NULL,
  body TEXT NOT NULL CHECK (json_valid(body))
) STRICT;

INSERT INTO cut_sum SELECT * FROM cut_sum_now;

CREATE TRIGGER cut_sum_of_instruction AFTER INSERT ON instruction BEGIN
  INSERT OR REPLACE INTO cut_sum SELECT * FROM cut_sum_now WHERE animal_id = NEW.animal_id;
END;
CREATE TRIGGER cut_sum_of_packed AFTER INSERT ON weighing WHEN NEW.stage = 'packed' AND NEW.animal_id IS NOT NULL BEGIN
  INSERT OR REPLACE INTO cut_sum SELECT * FROM cut_sum_now WHERE animal_id = NEW.animal_id;
END;
CREATE TRIGGER cut_sum_of_voided AFTER INSERT ON weighing_void
WHEN (SELECT w.stage FROM weighing w WHERE w.id = NEW.weighing_id) = 'packed' BEGIN
  INSERT OR REPLACE INTO cut_sum SELECT * FROM cut_sum_now
  WHERE animal_id = (SELECT w.animal_id FROM weighing w WHERE w.id = NEW.weighing_id);
END;

CREATE TRIGGER season_taught_is_old AFTER INSERT ON animal_sum BEGIN
  DELETE FROM season_taught WHERE season = NEW.season;
END;
CREATE TRIGGER season_taught_is_less AFTER DELETE ON animal_sum BEGIN
  DELETE FROM season_taught WHERE season = OLD.season;
END;
CREATE TRIGGER season_taught_is_ordered_anew AFTER INSERT ON cut_sum BEGIN
  DELETE FROM season_taught WHERE season = (SELECT a.season FROM animal a WHERE a.id = NEW.animal_id);
END;
`;
