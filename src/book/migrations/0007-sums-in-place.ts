/**
 * Sums changed in place. A weight changes what its animal's weighings add up to and nothing else of the row, so the indexes
 * by season and kind need not be written; and a voided weight adds its animal up without touching the animal itself.
 */
const OF_WEIGHINGS = [
  'damaged', 'cutter', 'cut_at', 'received', 'hanging', 'whole_cuts', 'trim', 'fat_saved', 'sinew', 'bone', 'damage',
  'trim_ground', 'own_fat_ground', 'packed', 'base', 'take_home', 'finished', 'share',
]; // prettier-ignore

export const sumsInPlace = `
-- An animal's id written into this view adds its weighings up again: a trigger on it has the id at hand, as a row of its
-- own, and so need not add up all other animals to find it.
CREATE VIEW animal_to_add_up (animal_id) AS SELECT animal_id FROM animal_sum;

CREATE TRIGGER animal_sum_added_up INSTEAD OF INSERT ON animal_to_add_up WHEN NEW.animal_id IS NOT NULL BEGIN
  INSERT INTO animal_sum SELECT * FROM animal_sum_now WHERE animal_id = NEW.animal_id
  ON CONFLICT (animal_id) DO UPDATE SET ${OF_WEIGHINGS.map((name) => `${name} = excluded.${name}`).join(', ')};
END;

DROP TRIGGER animal_sum_of_weighed;
CREATE TRIGGER animal_sum_of_weighed AFTER INSERT ON weighing WHEN NEW.animal_id IS NOT NULL BEGIN
  INSERT INTO animal_to_add_up VALUES (NEW.animal_id);
END;
DROP TRIGGER animal_sum_of_voided;
CREATE TRIGGER animal_sum_of_voided AFTER INSERT ON weighing_void BEGIN
  INSERT INTO animal_to_add_up SELECT w.animal_id FROM weighing w WHERE w.id = NEW.weighing_id;
END;

CREATE TRIGGER season_taught_is_other AFTER UPDATE ON animal_sum BEGIN
  DELETE FROM season_taught WHERE season = NEW.season;
END;
`;
