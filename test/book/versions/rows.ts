/**
 * At least one row for every table of a book, invented, by the version that is the first to have the table: a new step adds
 * rows for what is new in it, and is stored.
 */
export const ROWS: Readonly<Record<number, string>> = {
  1: `
INSERT INTO setting VALUES ('shopName', '"Cold Creek Locker"'), ('unit', '"lb"'), ('zone', '"America/Denver"');
INSERT INTO staff VALUES ('MK', 'Mika Koski', 1), ('RB', 'Ray Bell', 0);
INSERT INTO species_profile VALUES ('red-deer', '{"code":"red-deer"}', 1);
INSERT INTO hunter VALUES
  (1, 'Dana Whitlock', 'dana whitlock', '307-555-0142', '3075550142', '', '1 Ridge Road', 'WY-1', '', 0, '2026-10-01T14:00:00.000Z', NULL),
  (2, 'Ødegård, Ingrid', 'odegard, ingrid', '', '', 'i@example.org', '', '', 'calls back', 1, '2026-10-02T14:00:00.000Z', NULL);
INSERT INTO animal VALUES
  (1, 2026, 1, '26-0001', 1, '', '', 'elk', 'male', 'adult', 'skinned', 'hunter', 'WY-1', 'T-9', '2026-09-30', 'Area 7', '2026-10-01',
    '2026-10-09', 'clean', '', 'detailed', 'released', '2026-10-08', '2026-10-01T14:00:00.000Z'),
  (2, 2026, 2, '26-0002', 2, 'Pat O''Brien', '2 Ridge Road', 'mule-deer', 'female', 'young', 'quarters', 'hunter', '', '', NULL, '',
    '2026-10-02', NULL, '', 'shot through', 'quick', 'disposed', NULL, '2026-10-02T14:00:00.000Z');
INSERT INTO animal_part VALUES (2, 'hind quarter', 2);
INSERT INTO hold VALUES (1, 2, 'CWD', 'L26-118', '2026-10-02T15:00:00.000Z', 'MK');
INSERT INTO hold_end VALUES (1, 'positive', 'letter of the state', '2026-10-06T15:00:00.000Z', 'MK');
INSERT INTO instruction VALUES (1, 1, '{"orders":{}}', '2026-10-01T14:05:00.000Z', 'MK');
INSERT INTO product VALUES ('links', 'Links', 'sausage', '{"fat":"pork"}', 1);
INSERT INTO instruction_template VALUES (1, 'All burger', NULL, '{"orders":{}}', 1);
INSERT INTO cooler VALUES (1, 'Cold room 1', 40, 1);
INSERT INTO cooler_stay VALUES (1, 1, 1, 'hook 3', '2026-10-01T14:10:00.000Z', 'MK');
INSERT INTO cooler_temperature VALUES (1, 1, '36 F', 22, '2026-10-01T18:00:00.000Z', 'MK'), (2, 1, '63 F', 172, '2026-10-01T19:00:00.000Z', 'MK');
INSERT INTO cooler_temperature_void VALUES (2, 'misread', '2026-10-01T19:01:00.000Z', 'MK');
INSERT INTO fat_lot VALUES (1, 'PB-1', 'pork-back', 'Pork back fat', NULL, 0.85, 0.02, 250, 'lb', 'Ridge Meats', 'A-17', '2026-12-01', '2026-10-01', '2026-10-01T13:00:00.000Z', 'MK');
INSERT INTO batch VALUES (1, 2026, 1, 'G26-001', 'grind', 0.125, '{"parts":[]}', 'done', '2026-10-07', '2026-10-07T14:00:00.000Z', 'MK');
INSERT INTO batch_animal VALUES (1, 1);
INSERT INTO grind_pass VALUES (1, 1, 1, '3/8 in', '34 F', 11, '2026-10-07T14:30:00.000Z', 'MK');
INSERT INTO fat_test VALUES (1, 1, 0.131, 0.01, 'meter', '2026-10-07T15:00:00.000Z', 'MK');
INSERT INTO weighing VALUES
  (1, 1, NULL, NULL, 'hanging', 'carcass', NULL, NULL, NULL, NULL, '340.5', 3405, 1, 'lb', NULL, NULL, NULL, NULL, 154448.201985, 'typed', NULL, '', NULL, '2026-10-01T14:02:00.000Z', 'MK'),
  (2, 1, NULL, NULL, 'cut', 'trim', NULL, NULL, NULL, NULL, '801', 801, 1, 'lb', NULL, NULL, NULL, NULL, 36332.748837, 'scale', 'COM3', 'wet', NULL, '2026-10-06T14:02:00.000Z', 'RB'),
  (3, 1, NULL, NULL, 'cut', 'trim', NULL, NULL, NULL, NULL, '81 lb 2 oz', 81125, 3, 'lb', '1 lb', 1, 0, 'lb', 36343.588665, 'typed', NULL, '', 2, '2026-10-06T14:03:00.000Z', 'RB'),
  (4, 1, 1, NULL, 'grinder', 'trim', NULL, NULL, NULL, NULL, '80', 80, 0, 'lb', NULL, NULL, NULL, NULL, 36287.3896, 'typed', NULL, '', NULL, '2026-10-07T14:10:00.000Z', 'MK'),
  (5, NULL, 1, 1, 'grinder', 'fat added', NULL, NULL, NULL, NULL, '5 kg', 5, 0, 'kg', NULL, NULL, NULL, NULL, 5000.0, 'typed', NULL, '', NULL, '2026-10-07T14:12:00.000Z', 'MK'),
  (6, 1, 1, NULL, 'packed', 'package', NULL, 'grind', 45, 'shelf 2', '90', 90, 0, 'lb', NULL, NULL, NULL, NULL, 40823.3133, 'typed', NULL, '', NULL, '2026-10-07T16:00:00.000Z', 'MK'),
  (7, 2, NULL, NULL, 'received', 'carcass', NULL, NULL, NULL, NULL, '60', 60, 0, 'lb', NULL, NULL, NULL, NULL, 27215.5422, 'typed', NULL, '', NULL, '2026-10-02T14:02:00.000Z', 'MK');
INSERT INTO weighing_void VALUES (2, 'decimal point', '2026-10-06T14:03:00.000Z', 'RB');
INSERT INTO fat_movement VALUES
  (1, 1, 'bought', 45359.237, '100 lb', NULL, '', '2026-10-01T13:00:00.000Z', 'MK'), (2, 1, 'into batch', -5000.0, '5 kg', 5, '', '2026-10-07T14:12:00.000Z', 'MK');
INSERT INTO price_book VALUES (1, 'Fall 2026', '2026-09-01', 'USD', 'per line', 0, '2026-08-20T12:00:00.000Z', 'MK');
INSERT INTO price_line VALUES
  (1, 1, 'cut', 'Cut and wrap', 'hanging weight', 95, NULL, 'lb', '["elk"]', '["skinned"]', NULL, NULL, 0.04),
  (1, 2, 'rush', 'Rush', 'surcharge', NULL, 0.1, NULL, NULL, NULL, NULL, NULL, 0.0);
INSERT INTO quote VALUES (1, 2026, 1, 'Q26-0001', 1, 'Dana Whitlock', 'elk', 1, '{"weight":"340"}', '{"low":300}', '2026-09-20', '2026-10-20', '2026-09-20T12:00:00.000Z', 'MK');
INSERT INTO quote_taken VALUES (1, 1, '2026-10-01T14:01:00.000Z', 'MK');
INSERT INTO bill VALUES
  (1, 1, 1, 1, 1, '{}', 'USD', 32300, 1292, 33592, '2026-10-08', '2026-10-08T12:00:00.000Z', 'MK'), (2, 2, 1, 1, NULL, '{}', 'USD', 32348, 1294, 33642, '2026-10-08', '2026-10-08T12:10:00.000Z', 'MK');
INSERT INTO bill_line VALUES (1, 1, 'cut', 'Cut and wrap', 'hanging weight', 340.0, 'lb', 95, 32300, 1292), (2, 1, 'cut', 'Cut and wrap', 'hanging weight', 340.5, 'lb', 95, 32348, 1294);
INSERT INTO bill_void VALUES (1, 'weighed again', '2026-10-08T12:09:00.000Z', 'MK');
INSERT INTO payment VALUES
  (1, 1, NULL, 'deposit', 'cash', 5000, 'USD', '2026-10-01', '2026-10-01T14:06:00.000Z', 'MK'), (2, 1, 2, 'payment', 'card', 28642, 'USD', '2026-10-09', '2026-10-09T12:00:00.000Z', 'MK'),
  (3, 1, 2, 'payment', 'card', 28642, 'USD', '2026-10-09', '2026-10-09T12:00:05.000Z', 'MK');
INSERT INTO payment_void VALUES (3, 'typed twice', '2026-10-09T12:01:00.000Z', 'MK');
INSERT INTO call_note VALUES (1, 1, 'left word', '2026-10-08T13:00:00.000Z', 'MK');
INSERT INTO release VALUES (1, 1, 'Dana Whitlock', '2026-10-09', NULL, '', '2026-10-09T12:02:00.000Z', 'MK');
INSERT INTO disposal VALUES (1, 2, 'whole animal', 'state landfill', 'positive', '2026-10-07', '2026-10-07T12:00:00.000Z', 'MK');
INSERT INTO audit VALUES (1, 'setting', 'unit', 'change', '"kg"', '"lb"', '', '2026-08-20T12:00:00.000Z', 'MK');
`,
  3: `
INSERT INTO brought_in VALUES (1, 'hunters', 'friends.csv', 'ab12', 1, 2, 2, NULL, NULL, NULL, NULL, '2026-10-02T14:00:00.000Z', 'MK');
INSERT INTO brought_in_undone VALUES (1, '2026-10-02T14:05:00.000Z', 'MK');
`,
  5: `
INSERT INTO season_taught VALUES (2025, 'made up', '{}');
`,
  6: `
INSERT INTO cooler_temperature VALUES (3, 1, '2.1 C', 21, '2026-10-02T06:00:00.000Z', 'MK'), (4, 1, '2.4 C', 24, '2026-10-02T07:00:00.000Z', 'MK');
INSERT INTO cooler_log VALUES (1, 1, 'logger.csv', 'cd34', 3, 4, 0, '2026-10-02T15:00:00.000Z', 'MK');
INSERT INTO cooler_log_undone VALUES (1, '2026-10-02T15:05:00.000Z', 'MK');
`,
  9: `
INSERT INTO release_mend VALUES (1, 1, 'Ada Whitlock', '2026-10-10', '2026-10-11T12:00:00.000Z', 'MK');
`,
  10: `
INSERT INTO hold_result VALUES (1, 1, 'not detected', 'L26-118', 'State lab', '2026-10-11', '', 'read for another sample', '2026-10-11T15:00:00.000Z', 'MK'),
  (2, 1, 'positive', 'L26-118', 'State lab', '2026-10-12', 'by letter', 'tested again', '2026-10-12T15:00:00.000Z', 'MK');
INSERT INTO grinder_cleaning VALUES (1, 1, 'taken apart and washed', '2026-10-07T15:00:00.000Z', 'RB'), (2, NULL, 'washed', '2026-10-07T17:00:00.000Z', 'RB');
INSERT INTO grinder_cleaning_void VALUES (2, 'not done yet', '2026-10-07T17:01:00.000Z', 'RB');
`,
  11: `
INSERT INTO former_ticket VALUES (1, 1, 2025, 7, '25-0007', '2026-10-11T13:00:00.000Z', 'MK');
`,
  12: `
INSERT INTO part_none VALUES (1, 1, 'damage', '2026-10-06T14:05:00.000Z', 'RB'), (2, 1, 'bone', '2026-10-06T14:06:00.000Z', 'RB');
INSERT INTO part_none_void VALUES (2, 'stated by mistake', '2026-10-06T14:07:00.000Z', 'RB');
`,
  13: `
INSERT INTO release VALUES (2, 2, 'Ingrid Ødegård', '2026-10-06', NULL, '', '2026-10-06T12:00:00.000Z', 'MK');
INSERT INTO release_void VALUES (2, 'the wrong ticket', '2026-10-06T12:03:00.000Z', 'RB');
INSERT INTO disposal VALUES (2, 1, 'all of it', 'landfill', 'spoiled', '2026-10-05', '2026-10-05T12:00:00.000Z', 'MK');
INSERT INTO disposal_void VALUES (2, 'meant for another animal', '2026-10-05T12:04:00.000Z', 'RB');
`,
  14: `
INSERT INTO hold VALUES (2, 1, 'smells', '', '2026-10-02T16:00:00.000Z', 'RB');
INSERT INTO hold_end VALUES (2, 2, 'withdrawn', 'another animal', '2026-10-02T16:05:00.000Z', 'RB'), (3, 2, 'withdrawn', 'said again', '2026-10-02T16:06:00.000Z', 'RB');
`,
  15: `
UPDATE animal SET legs = 'off' WHERE id = 2;
`,
  16: `
INSERT INTO intake_cancel VALUES (1, 2, 'hanging', 'taken in twice', '2026-10-02T14:20:00.000Z', 'MK');
INSERT INTO intake_cancel_void VALUES (1, 'the other one was it', '2026-10-02T14:21:00.000Z', 'MK');
INSERT INTO belonging VALUES (1, 1, 'cape', 'A-7', 'freezer 2', 0, 'salted', '2026-10-01T14:05:00.000Z', 'MK'), (2, 1, 'skull', '', 'shelf', 1, '', '2026-10-01T14:06:00.000Z', 'MK'), (3, 1, 'heart', '', '', 0, '', '2026-10-01T14:07:00.000Z', 'MK');
INSERT INTO belonging_void VALUES (3, 'of another elk', '2026-10-01T14:08:00.000Z', 'MK');
INSERT INTO belonging_end VALUES (1, 1, 'taxidermist', 'Pine Studio', 'R-12', '2026-10-05', '', '2026-10-05T12:00:00.000Z', 'RB'), (2, 2, 'discarded', '', '', '2026-10-05', 'cracked', '2026-10-05T12:01:00.000Z', 'RB');
INSERT INTO belonging_end_void VALUES (2, 'it is here', '2026-10-05T12:02:00.000Z', 'RB');
INSERT INTO share_split VALUES (1, 1, 'percent', '', '2026-10-01T14:09:00.000Z', 'MK'), (2, 1, 'pieces', 'agreed otherwise', '2026-10-02T09:00:00.000Z', 'MK');
INSERT INTO share VALUES (1, 0, 1, '50', 50.0), (1, 1, 2, '50', 50.0), (2, 0, 1, '3', 3.0), (2, 1, 2, '1', 1.0);
INSERT INTO share_pickup VALUES (1, 1, 2, 'Ingrid Ødegård', '[{"product":"grind","batch":"G26-001","count":11,"grams":9979}]', '2026-10-09', NULL, '2026-10-09T12:00:00.000Z', 'MK');
INSERT INTO share_pickup_void VALUES (1, 'not today', '2026-10-09T12:00:30.000Z', 'MK');
INSERT INTO payment VALUES (4, 1, 2, 'payment', 'cash', 100, 'USD', '2026-10-09', '2026-10-09T12:03:00.000Z', 'MK', 2);
INSERT INTO donation VALUES (1, 1, 'Hunters Share', 0, '12.5', 125, 1, 'lb', 5669.904625, 'HS-88', 150, 'lb', 'USD', '2026-10-09', 'hunter', 'ground only', '2026-10-09T12:04:00.000Z', 'MK'), (2, 1, 'Hunters Share', 0, '1.25', 125, 2, 'lb', 566.9904625, '', 0, 'lb', 'USD', '2026-10-09', 'unclaimed', '', '2026-10-09T12:05:00.000Z', 'MK');
INSERT INTO donation_void VALUES (2, 'typed wrong', '2026-10-09T12:06:00.000Z', 'MK');
INSERT INTO unprocessed VALUES (1, 2, 'taken to another shop', '2026-10-03T09:00:00.000Z', 'MK');
INSERT INTO unprocessed_void VALUES (1, 'stays here', '2026-10-03T09:01:00.000Z', 'MK');
INSERT INTO pickup_notice VALUES (1, 1, 'first', 'call', '2026-10-08', 'left word', '2026-10-08T13:05:00.000Z', 'MK'), (2, 1, 'second', 'letter', '2026-10-08', '', '2026-10-08T13:06:00.000Z', 'MK');
INSERT INTO pickup_notice_void VALUES (2, 'not sent', '2026-10-08T13:07:00.000Z', 'MK');
`,
  17: `
INSERT INTO payment (id, animal_id, bill_id, kind, method, amount_minor, currency, paid_on, at, by, reference)
  VALUES (104, 1, 2, 'payment', 'check', 100, 'USD', '2026-10-09', '2026-10-09T12:05:00.000Z', 'MK', '1042');
INSERT INTO till_float VALUES (1, '2026-10-01', 'USD', '150', 15000, '2026-10-01T13:30:00.000Z', 'MK');
INSERT INTO till_close VALUES
  (1, 1, '2026-10-01', 'USD', 15000, 5000, 20000, '{"total":"200"}', 20000, 0, '', '2026-10-01T23:00:00.000Z', 'MK'),
  (2, 2, '2026-10-01', 'USD', 15000, 5000, 20000, '{"total":"199"}', 19900, -100, 'a dollar short', '2026-10-01T23:10:00.000Z', 'RB');
INSERT INTO till_close_entry VALUES (1, 1, 'payment'), (2, 1, 'payment');
INSERT INTO till_close_void VALUES (1, 'counted wrong', '2026-10-01T23:05:00.000Z', 'RB');
`,
  18: `
INSERT INTO price_line VALUES (1, 3, 'sausage', 'Sausage making', 'product', 325, NULL, 'lb', NULL, NULL, NULL, NULL, 0.0, '["bratwurst"]', '["sausage"]');
INSERT INTO work_time VALUES (1, 1, 'trimming', 90, '2026-10-06T15:00:00.000Z', 'RB'), (2, 1, 'trimming', 900, '2026-10-06T15:01:00.000Z', 'RB');
INSERT INTO work_time_void VALUES (2, 'ten times too much', '2026-10-06T15:02:00.000Z', 'RB');
INSERT INTO adjustment VALUES
  (1, 1, 1, 'free line', 'Freezer bag', NULL, NULL, 500, NULL, 0.06, 'USD', 'asked for at the counter', '2026-10-07T15:00:00.000Z', 'MK'),
  (2, 1, NULL, 'percent off', '', NULL, NULL, NULL, 0.1, NULL, 'USD', 'came twice', '2026-10-07T15:01:00.000Z', 'MK'),
  (3, 1, NULL, 'amount off', '', NULL, NULL, 1000, NULL, NULL, 'USD', 'waited long', '2026-10-07T15:02:00.000Z', 'MK'),
  (4, 1, NULL, 'other price', '', 'cut', NULL, 90, NULL, NULL, 'USD', 'as promised', '2026-10-07T15:03:00.000Z', 'MK'),
  (5, 1, NULL, 'charge as', '', 'sausage', 'Landjäger', NULL, NULL, NULL, 'USD', 'made like it', '2026-10-07T15:04:00.000Z', 'MK');
INSERT INTO adjustment_void VALUES (3, 'given to another', '2026-10-07T15:05:00.000Z', 'MK');
`,
  19: `
INSERT INTO affected_note VALUES (1, 1, 2, 'called', 'will bring it back', '2026-10-12T16:00:00.000Z', 'MK'), (2, 1, 2, 'returned', '', '2026-10-12T16:01:00.000Z', 'MK');
INSERT INTO affected_note_void VALUES (2, 'not yet', '2026-10-12T16:02:00.000Z', 'MK');
INSERT INTO grinder_cleaning VALUES (3, NULL, 'taken apart and washed', '2026-10-09T15:00:00.000Z', 'RB', '2026-10-08T23:00:00.000Z');
`,
  20: `
INSERT INTO quote (id, season, number, name, hunter_id, hunter_name, species, price_book_id, asked, answered, made_on, valid_until, at, by)
  SELECT 99, season, 9999, 'Q-again', hunter_id, hunter_name, species, price_book_id, asked, answered, made_on, valid_until, at, by FROM quote WHERE id = 1;
INSERT INTO quote_taken VALUES (99, 2, '2026-10-12T16:03:00.000Z', 'MK');
`,
  21: `
INSERT INTO ingredient VALUES (1, 1, '2026-10-10T12:00:00.000Z', 'MK'), (2, 0, '2026-10-10T12:00:01.000Z', 'MK');
INSERT INTO ingredient_version VALUES
  (1, 1, 'Pink cure', 'cure', '[]', '[]', 0.0625, 0.0, 0.0, NULL, '6.25%', 'sodium', '["ground"]', '', '2026-10-10T12:00:00.000Z', 'MK'),
  (2, 2, 'House blend', 'blend', NULL, '"unknown"', NULL, NULL, NULL, NULL, '', 'sodium', NULL, 'packet lost', '2026-10-10T12:00:01.000Z', 'MK');
INSERT INTO recipe VALUES (1, 1, '2026-10-10T12:01:00.000Z', 'MK');
INSERT INTO recipe_version VALUES (1, 1, 'Summer sausage', 'Summer Sausage', '{"meat":[]}', '', '2026-10-10T12:01:00.000Z', 'MK'), (2, 1, 'Summer sausage', 'Summer Sausage', '{"meat":[{}]}', 'more pork', '2026-10-10T12:02:00.000Z', 'MK');
INSERT INTO made_batch VALUES (1, 2026, 1, 'M26-001', 1, 1, '2026-10-10T13:00:00.000Z', 'MK'), (2, 2026, 2, 'M26-002', 1, 1, '2026-10-10T13:00:01.000Z', 'MK');
INSERT INTO made_batch_void VALUES (2, 'opened twice', '2026-10-10T13:00:30.000Z', 'MK');
INSERT INTO made_start VALUES (1, 1, 2, '40', 18143.6948, '{"amounts":[]}', '2026-10-10T13:10:00.000Z', 'RB');
INSERT INTO made_weighed VALUES
  (1, 1, 1, '45 g', 45, 0, 'g', 45.0, 'L-118', 'scale', '2026-10-10T13:12:00.000Z', 'RB'), (2, 1, 1, '450 g', 450, 0, 'g', 450.0, 'L-118', 'typed', '2026-10-10T13:13:00.000Z', 'RB');
INSERT INTO made_weighed_void VALUES (2, 'ten times too much', '2026-10-10T13:13:30.000Z', 'RB');
INSERT INTO made_stage VALUES
  (1, 1, 'stuffed', 14, '41.5', 415, 1, 'lb', 18824.083355, 'typed', '2026-10-10T15:00:00.000Z', 'RB'), (2, 1, 'cooked', 14, '315', 315, 0, 'lb', 142881.59655, 'typed', '2026-10-11T15:00:00.000Z', 'RB');
INSERT INTO made_stage_void VALUES (2, 'decimal point', '2026-10-11T15:01:00.000Z', 'RB');
INSERT INTO made_analysis VALUES (1, 1, 'water activity', '0.95', 0.95, 'meter', '2026-10-12T15:00:00.000Z', 'MK'), (2, 1, 'ph', '50', 50.0, 'meter', '2026-10-12T15:01:00.000Z', 'MK');
INSERT INTO made_analysis_void VALUES (2, 'decimal point', '2026-10-12T15:02:00.000Z', 'MK');
INSERT INTO made_package VALUES (6, 1, '2026-10-12T16:00:00.000Z', 'MK');
INSERT INTO load VALUES (1, 2026, 1, 'L26-001', 'big smokehouse', '2026-10-10T16:00:00.000Z', 'RB');
INSERT INTO load_batch VALUES (1, 1, 1, '2026-10-10T16:00:00.000Z', 'RB'), (2, 1, 2, '2026-10-10T16:00:01.000Z', 'RB');
INSERT INTO load_batch_void VALUES (2, 'hangs elsewhere', '2026-10-10T16:00:30.000Z', 'RB');
INSERT INTO load_record VALUES (1, 1, 'open', '{"level":"log65"}', '', '2026-10-10T16:01:00.000Z', 'RB');
INSERT INTO load_log VALUES (1, 1, 'both', 'P1', 'F', 'file', 'cook.csv', 'ab', '2026-10-11T12:00:00.000Z', 'RB'), (2, 1, 'both', 'P2', 'F', 'typed', '', '', '2026-10-11T12:00:01.000Z', 'RB');
INSERT INTO load_log_void VALUES (2, 'of another load', '2026-10-11T12:01:00.000Z', 'RB');
INSERT INTO load_reading VALUES
  (1, 1, '2026-10-10T20:00:00.000Z', '152.4', 152.4, '2026-10-11T12:00:00.000Z', 'RB'), (2, 1, '2026-10-10T20:05:00.000Z', '---', NULL, '2026-10-11T12:00:00.000Z', 'RB'),
  (3, 2, '2026-10-10T20:05:00.000Z', '151', 151.0, '2026-10-11T12:00:01.000Z', 'RB');
INSERT INTO load_exclusion VALUES (1, 2, 'probe was pulled out', '2026-10-11T12:02:00.000Z', 'RB'), (2, 1, 'wrong row', '2026-10-11T12:03:00.000Z', 'RB');
INSERT INTO load_exclusion_void VALUES (2, 'it counts', '2026-10-11T12:04:00.000Z', 'RB');
INSERT INTO load_verdict VALUES (1, 1, 'not-proven', 'not-proven', '1 2 2', '{"missing":["log.gap"]}', '2026-10-11T12:05:00.000Z', 'RB');
INSERT INTO deviation VALUES
  (1, 1, NULL, 'cook again', 'Mika Koski', 'the logger stopped', '2026-10-11T12:10:00.000Z', 'MK'), (2, NULL, 1, 'discard', 'Mika Koski', 'fell on the floor', '2026-10-11T12:11:00.000Z', 'MK');
INSERT INTO deviation_void VALUES (2, 'of another batch', '2026-10-11T12:12:00.000Z', 'MK');
`,
  22: `
INSERT INTO station VALUES (1, '3f79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046dea', 'https://192.168.1.5:47115', 'Safari', '2026-10-12T17:00:00.000Z', 'MK');
INSERT INTO station_name VALUES (1, 1, 'Table', 'table', 'en-US', '2026-10-12T17:00:00.000Z', 'MK'), (2, 1, 'Table 2', 'table', 'es-MX', '2026-10-12T17:01:00.000Z', 'MK');
INSERT INTO station_state VALUES (1, 1, 'paused', 'left in the truck', '2026-10-12T17:02:00.000Z', 'MK'), (2, 1, 'open', 'found', '2026-10-12T17:03:00.000Z', 'MK');
INSERT INTO station_line VALUES (1, 1, '5d0d1cb6-7a4b-4e0c-9b55-0f4b1c6b9b01', '2026-10-12T17:04:00.000Z', 'RB');
INSERT INTO station_entry VALUES
  (1, 1, 1, '5d0d1cb6-7a4b-4e0c-9b55-0f4b1c6b9b02', '3f79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046dea', 1, 'table.weigh', '{"ok":true,"value":{"id":1}}', 'RB', 0, '2026-10-12T16:50:00.000Z', 2000, '2026-10-12T17:04:00.000Z', 'RB');
INSERT INTO station_write VALUES (1, 1, 'table.weigh', '1', 'RB', 0, '2026-10-12T17:04:00.000Z', 'RB');
INSERT INTO staff_pin VALUES (1, 'RB', 'c2FsdA', 'aGFzaA', '2026-10-12T17:05:00.000Z', 'MK'), (2, 'RB', '', NULL, '2026-10-12T17:06:00.000Z', 'MK');
INSERT INTO audit (record, record_id, act, reason, at, by, station_id, person, checked) VALUES ('animal', '1', 'change', '', '2026-10-12T17:07:00.000Z', 'RB', 1, 'RB', 1);
`,
  23: `
UPDATE hunter SET language = 'fr-CA' WHERE id = 1;
`,
  24: `
INSERT INTO draft VALUES
  (1, 1, 'es-MX', 'Dana Whitlock', '307-555-0142', 'WY-1', 'T-9', 'elk', 'male', '2026-09-30', 'Area 7', '{"note":"thick steaks"}', 'Pick up within 5 days.', 'M10,10L40,60', NULL, '2026-10-01T13:50:00.000Z', ''),
  (2, NULL, 'en-US', 'Pat Reed', '', '', '', 'mule-deer', 'unknown', NULL, '', NULL, '', '', NULL, '2026-10-01T13:55:00.000Z', 'MK');
INSERT INTO draft_state VALUES
  (1, 1, 'taken', 1, '', '2026-10-01T14:00:00.000Z', 'MK'), (2, 2, 'dismissed', NULL, 'left again', '2026-10-01T14:10:00.000Z', 'MK'), (3, 2, 'open', NULL, '', '2026-10-01T14:11:00.000Z', 'MK');
`,
  25: `
INSERT INTO price_line VALUES (1, 4, 'jerky', 'Jerky making', 'trim', 450, NULL, 'lb', NULL, NULL, NULL, NULL, 0.0, '[]', '["jerky"]', '[1]', 10.5);
`,
  26: `
INSERT INTO station_made VALUES (1, 1, '5d0d1cb6-7a4b-4e0c-9b55-0f4b1c6b9b03', 'intake.takeIn', 1, '2026-10-12T17:08:00.000Z', 'RB');
`,
  27: `
INSERT INTO photograph VALUES
  (1, 1, 'tag', '3f79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046dea', 182000, 1200, 1600, 1, '2026-10-01T14:01:00.000Z', '2026-10-01T14:02:00.000Z', 'MK'),
  (2, 2, 'damage', 'a79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046de3f', 90000, 1600, 900, NULL, '2026-10-02T14:01:00.000Z', '2026-10-02T14:02:00.000Z', 'RB'),
  (3, 2, 'animal', 'b79bb7b435b05321651daefd374cdc681dc06faa65e374e38337b88ca046de3f', 90000, 1600, 900, NULL, '2026-10-02T14:03:00.000Z', '2026-10-02T14:03:00.000Z', 'RB');
INSERT INTO photograph_void VALUES (2, 'of another animal', '2026-10-02T14:05:00.000Z', 'RB');
INSERT INTO photograph_removal VALUES (3, '2026-10-13T14:05:00.000Z', 'MK');
`,
  28: `
INSERT INTO slip VALUES (1, '483-201-957', '2026-10-01T20:00:00.000Z', 'MK'), (2, '004-000-112', '2026-10-01T20:00:00.000Z', 'MK');
INSERT INTO slip_animal VALUES (1, 1, '2026-10-02T14:00:00.000Z', 'MK');
INSERT INTO draft VALUES
  (3, NULL, 'fr-CA', 'Luc Morin', '', '', 'B-3', 'elk', 'male', NULL, '', NULL, '', '', NULL, '2026-10-02T05:00:00.000Z', '', 2, 1, '', NULL),
  (4, 1, 'es-MX', 'Rosa Vega', '', '', '', 'elk', 'female', NULL, '', NULL, 'Recoja en 5 días.', 'M1,1L2,2', NULL, '2026-10-02T05:10:00.000Z', '', NULL, 0, 'es-MX', '2026-09-01T12:00:00.000Z');
`,
  29: `
INSERT INTO lesson_given VALUES (1, '1f0c7e52-52b4-4d5c-8f0c-0d8f0e0f9a11', '{"yields":[]}', '2026-11-30T18:00:00.000Z', 'MK');
INSERT INTO lesson VALUES
  (1, '5b7a3c4e-9d21-4e0a-a1b2-7c6d5e4f3a2b', 'The shop in town', 'file', '2026-11-28', 412, 37, '{"yields":[]}', '2026-11-30T18:05:00.000Z', 'MK');
INSERT INTO lesson_use VALUES (1, 1, 0, '2026-11-30T18:06:00.000Z', 'MK');
`,
  30: `
INSERT INTO weighing_void VALUES (6, 'reason:wrong-animal', '2026-11-30T19:00:00.000Z', 'MK');
INSERT INTO instruction VALUES (30, 1, '{"primals":[{"primal":"ham","as":"whole","size":"size:bone-in"}]}', '2026-11-30T19:05:00.000Z', 'MK');
`,
};
