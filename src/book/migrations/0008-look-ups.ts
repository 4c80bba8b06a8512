/**
 * Finding a hunter by any part of the name or of the telephone number without reading every name: the words of all names,
 * whose they are, and the ends of all numbers. Each table is always its view (`..._now`) written down, kept up by triggers.
 */

/** SQL for the words of a name, which stand between single spaces: JSON's quotes around each make them a list. */
const wordsOf = (row: string) => `json_each('[' || replace(json_quote(${row}.name_key), ' ', '","') || ']')`;
/** SQL for a list as long as the ends of a telephone number, the last of three digits; its keys count from 0. */
const endsOf = (row: string) =>
  `json_each('[0' || replace(hex(zeroblob(length(${row}.phone_key) - 3)), '00', ',0') || ']')`;

/** By what the row held: the tables have no index of hunters, which would be as large as they are. */
const forget = `  DELETE FROM hunter_word_lookup
    WHERE word IN (SELECT value FROM ${wordsOf('OLD')}) AND name_key = OLD.name_key AND hunter_id = OLD.id;
  DELETE FROM hunter_digits_lookup
    WHERE digits IN (SELECT substr(OLD.phone_key, 1 + key) FROM ${endsOf('OLD')}) AND hunter_id = OLD.id;`;

export const lookUps = `
CREATE VIEW hunter_word_lookup_now AS
  SELECT DISTINCT w.value AS word, h.name_key, h.id AS hunter_id
  FROM hunter h, ${wordsOf('h')} w WHERE w.value <> '';

CREATE TABLE hunter_word_lookup (
  word TEXT NOT NULL,
  -- The whole name, so that hunters come in the order of their names off this table alone.
  name_key TEXT NOT NULL,
  hunter_id INTEGER NOT NULL,
  PRIMARY KEY (word, name_key, hunter_id)
) STRICT, WITHOUT ROWID;

CREATE VIEW word_lookup_now AS SELECT DISTINCT word FROM hunter_word_lookup;

-- Hunters share their names: there are far fewer words than people.
CREATE TABLE word_lookup (
  word TEXT PRIMARY KEY
) STRICT, WITHOUT ROWID;

-- From each digit on to the last, three digits at least: a part of a number is where one of its ends begins.
CREATE VIEW hunter_digits_lookup_now AS
  SELECT DISTINCT substr(h.phone_key, 1 + n.key) AS digits, h.id AS hunter_id
  FROM hunter h, ${endsOf('h')} n WHERE length(h.phone_key) >= 3;

CREATE TABLE hunter_digits_lookup (
  digits TEXT NOT NULL,
  hunter_id INTEGER NOT NULL,
  PRIMARY KEY (digits, hunter_id)
) STRICT, WITHOUT ROWID;
DROP INDEX hunter_by_phone;

-- A handful among the batches of all seasons.
CREATE INDEX batch_open ON batch (id) WHERE state = 'open';

INSERT INTO hunter_word_lookup SELECT * FROM hunter_word_lookup_now ORDER BY 1, 2, 3;
INSERT INTO word_lookup SELECT * FROM word_lookup_now;
INSERT INTO hunter_digits_lookup SELECT * FROM hunter_digits_lookup_now ORDER BY 1, 2;

CREATE TRIGGER word_lookup_of_new AFTER INSERT ON hunter_word_lookup BEGIN
  INSERT OR IGNORE INTO word_lookup VALUES (NEW.word);
END;
-- A word that nobody has any more is forgotten: it may be the name of somebody whose details were taken out.
CREATE TRIGGER word_lookup_of_gone AFTER DELETE ON hunter_word_lookup
WHEN NOT EXISTS (SELECT 1 FROM hunter_word_lookup o WHERE o.word = OLD.word) BEGIN
  DELETE FROM word_lookup WHERE word = OLD.word;
END;

CREATE TRIGGER hunter_lookup_of_new AFTER INSERT ON hunter BEGIN
  INSERT INTO hunter_word_lookup SELECT * FROM hunter_word_lookup_now WHERE hunter_id = NEW.id;
  INSERT INTO hunter_digits_lookup SELECT * FROM hunter_digits_lookup_now WHERE hunter_id = NEW.id;
END;
CREATE TRIGGER hunter_lookup_of_changed AFTER UPDATE ON hunter
WHEN NEW.name_key <> OLD.name_key OR NEW.phone_key <> OLD.phone_key BEGIN
${forget}
  INSERT INTO hunter_word_lookup SELECT * FROM hunter_word_lookup_now WHERE hunter_id = NEW.id;
  INSERT INTO hunter_digits_lookup SELECT * FROM hunter_digits_lookup_now WHERE hunter_id = NEW.id;
END;
CREATE TRIGGER hunter_lookup_of_gone AFTER DELETE ON hunter BEGIN
${forget}
END;
`;
