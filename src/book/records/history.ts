import type { Db } from '../file/db.ts';

export interface HistoryRow {
  what: string;
  at: string;
  by: string;
  /** JSON, as written by the branch of its kind below. */
  facts: string;
}

/** Whether a weight `w` and the weight `o` that it corrects differ in animal or part. */
const MOVED = `(o.animal_id IS NOT w.animal_id OR o.stage <> w.stage OR o.part <> w.part OR o.primal IS NOT w.primal)`;

/**
 * All events of one animal, each kind from its own table. Simultaneous events follow the order of work: intake before
 * hanging, weighing before the next stage.
 */
const HISTORY = `
  SELECT 0 AS rank, u.id, 'taken-in' AS what, u.at, u.by,
    json_object('before', json(u.before), 'after', json(u.after), 'reason', u.reason) AS facts
  FROM animal a JOIN audit u ON u.record = 'animal' AND u.record_id = CAST(a.id AS TEXT) WHERE a.id = @id AND u.act = 'add'
UNION ALL
  SELECT 7, u.id, 'changed', u.at, u.by,
    json_object('before', json(u.before), 'after', json(u.after), 'reason', u.reason)
  FROM animal a JOIN audit u ON u.record = 'animal' AND u.record_id = CAST(a.id AS TEXT) WHERE a.id = @id AND u.act = 'change'
    -- An animal that was brought in by mistake and taken out leaves its number here to the next one.
    -- Looked up once and not for every row, or an animal with thousands of changes would hold the desk.
    AND u.id > coalesce((SELECT max(n.id) FROM animal m JOIN audit n ON n.record = 'animal' AND n.record_id = CAST(m.id AS TEXT)
      WHERE m.id = @id AND n.act = 'add'), 0)
UNION ALL
  SELECT 0, b.id, 'brought-in', b.at, b.by, json_object('file', b.file)
  FROM brought_in b WHERE @id BETWEEN b.animal_first AND b.animal_last
    AND NOT EXISTS (SELECT 1 FROM brought_in_undone u WHERE u.brought_in_id = b.id)
UNION ALL
  SELECT 7, u.id, 'owner-changed', u.at, u.by,
    json_object('act', u.act, 'before', json(u.before), 'after', json(u.after), 'reason', u.reason)
  FROM animal a JOIN audit u ON u.record = 'hunter' AND u.record_id = CAST(a.hunter_id AS TEXT)
  WHERE a.id = @id AND u.act <> 'add' AND u.at >= a.created_at
UNION ALL
  SELECT 1, q.id, 'quote', t.at, t.by, json_object('quote', q.name)
  FROM quote_taken t JOIN quote q ON q.id = t.quote_id WHERE t.animal_id = @id
UNION ALL
  SELECT 2, h.id, 'held', h.at, h.by, json_object('reason', h.reason, 'sample', h.sample)
  FROM hold h WHERE h.animal_id = @id
UNION ALL
  SELECT 6, e.id, 'hold-ended', e.at, e.by, json_object('outcome', e.outcome, 'note', e.note)
  FROM hold_end e JOIN hold h ON h.id = e.hold_id WHERE h.animal_id = @id
UNION ALL
  SELECT 6, r.id, 'test-result', r.at, r.by,
    json_object('result', r.result, 'sample', r.sample, 'lab', r.lab, 'on', r.reported_on, 'note', r.note, 'reason', r.reason)
  FROM hold_result r JOIN hold h ON h.id = r.hold_id WHERE h.animal_id = @id
UNION ALL
  SELECT 3, i.id, 'instructed', i.at, i.by,
    json_object('before', json(coalesce(lag(i.body) OVER (ORDER BY i.id), iif(i.body ->> '$.notAsked', '{}', NULL))), 'after', json(i.body))
  FROM instruction i WHERE i.animal_id = @id
UNION ALL
  SELECT 4, s.id, 'hung', s.at, s.by, json_object('cooler', c.name, 'place', s.place)
  FROM cooler_stay s JOIN cooler c ON c.id = s.cooler_id WHERE s.animal_id = @id
UNION ALL
  SELECT 5, w.id, iif(o.id IS NULL, 'weighed', 'weight-corrected'), w.at, w.by,
    json_object('stage', w.stage, 'part', w.part, 'primal', w.primal, 'product', w.product, 'count', w.count, 'typed', w.typed,
      'unit', w.unit, 'tare', w.tare_typed, 'batch', b.name, 'was', o.typed, 'wasUnit', o.unit, 'wasTare', o.tare_typed,
      'reason', v.reason)
  FROM weighing w LEFT JOIN batch b ON b.id = w.batch_id LEFT JOIN weighing o ON o.id = w.corrects
    LEFT JOIN weighing_void v ON v.weighing_id = o.id
  WHERE w.animal_id = @id AND NOT (o.id IS NOT NULL AND ${MOVED})
UNION ALL
  -- A moved weight keeps the moment at which it was read; it moved when its old row was voided.
  SELECT 5, w.id, iif(o.animal_id IS w.animal_id, 'weight-moved', 'weight-moved-here'), v.at, v.by,
    json_object('stage', w.stage, 'part', w.part, 'primal', w.primal, 'product', w.product, 'count', w.count, 'typed', w.typed,
      'unit', w.unit, 'tare', w.tare_typed, 'fromStage', o.stage, 'fromPart', o.part, 'fromPrimal', o.primal,
      'ticket', (SELECT a.ticket FROM animal a WHERE a.id = o.animal_id), 'readAt', w.at, 'reason', v.reason)
  FROM weighing w JOIN weighing o ON o.id = w.corrects JOIN weighing_void v ON v.weighing_id = o.id
  WHERE w.animal_id = @id AND ${MOVED}
UNION ALL
  SELECT 5, o.id, 'weight-moved-away', v.at, v.by,
    json_object('stage', o.stage, 'part', o.part, 'primal', o.primal, 'product', o.product, 'count', o.count, 'typed', o.typed,
      'unit', o.unit, 'tare', o.tare_typed, 'ticket', (SELECT a.ticket FROM animal a WHERE a.id = w.animal_id), 'reason', v.reason)
  FROM weighing o JOIN weighing w ON w.corrects = o.id JOIN weighing_void v ON v.weighing_id = o.id
  WHERE o.animal_id = @id AND w.animal_id IS NOT o.animal_id
UNION ALL
  SELECT 5, w.id, 'weight-voided', v.at, v.by,
    json_object('stage', w.stage, 'part', w.part, 'primal', w.primal, 'product', w.product, 'count', w.count, 'typed', w.typed,
      'unit', w.unit, 'tare', w.tare_typed, 'batch', b.name, 'reason', v.reason)
  FROM weighing_void v JOIN weighing w ON w.id = v.weighing_id LEFT JOIN batch b ON b.id = w.batch_id
  WHERE w.animal_id = @id AND NOT EXISTS (SELECT 1 FROM weighing n WHERE n.corrects = w.id)
UNION ALL
  SELECT 5, n.id, 'none-stated', n.at, n.by, json_object('part', n.part) FROM part_none n WHERE n.animal_id = @id
UNION ALL
  SELECT 5, n.id, 'none-voided', v.at, v.by, json_object('part', n.part, 'reason', v.reason)
  FROM part_none n JOIN part_none_void v ON v.none_id = n.id WHERE n.animal_id = @id
UNION ALL
  SELECT 5, b.id, 'batched', b.at, b.by, json_object('batch', b.name, 'product', b.product,
    'others', (SELECT count(*) - 1 FROM batch_animal o WHERE o.batch_id = b.id))
  FROM batch_animal m JOIN batch b ON b.id = m.batch_id WHERE m.animal_id = @id
UNION ALL
  SELECT 6, m.id, 'fat-moved', m.at, m.by,
    json_object('kind', m.kind, 'grams', m.grams, 'reason', iif(m.kind = 'handed over', '', m.note))
  FROM fat_lot l JOIN fat_movement m ON m.lot_id = l.id
  WHERE l.animal_id = @id AND m.kind IN ('thrown out', 'counted', 'handed over')
UNION ALL
  SELECT 6, b.id, 'billed', b.at, b.by, json_object('number', b.number, 'totalMinor', b.total_minor, 'currency', b.currency)
  FROM bill b WHERE b.animal_id = @id
UNION ALL
  SELECT 6, b.id, 'bill-voided', v.at, v.by,
    json_object('number', b.number, 'totalMinor', b.total_minor, 'currency', b.currency, 'reason', v.reason)
  FROM bill_void v JOIN bill b ON b.id = v.bill_id WHERE b.animal_id = @id
UNION ALL
  SELECT 6, p.id, 'paid', p.at, p.by,
    json_object('kind', p.kind, 'method', p.method, 'amountMinor', p.amount_minor, 'currency', p.currency)
  FROM payment p WHERE p.animal_id = @id
UNION ALL
  SELECT 6, p.id, 'payment-voided', v.at, v.by,
    json_object('kind', p.kind, 'method', p.method, 'amountMinor', p.amount_minor, 'currency', p.currency, 'reason', v.reason)
  FROM payment_void v JOIN payment p ON p.id = v.payment_id WHERE p.animal_id = @id
UNION ALL
  SELECT 7, d.id, 'donated', d.at, d.by, json_object('program', d.program, 'whole', d.whole, 'grams', d.grams, 'confirmation', d.confirmation,
    'on', d.donated_on, 'why', d.why, 'note', d.note)
  FROM donation d WHERE d.animal_id = @id
UNION ALL
  SELECT 7, d.id, 'donation-voided', v.at, v.by, json_object('program', d.program, 'grams', d.grams, 'reason', v.reason)
  FROM donation_void v JOIN donation d ON d.id = v.donation_id WHERE d.animal_id = @id
UNION ALL
  SELECT 6, u.id, 'as-came', u.at, u.by, json_object('reason', u.reason) FROM unprocessed u WHERE u.animal_id = @id
UNION ALL
  SELECT 6, u.id, 'processed-after-all', v.at, v.by, json_object('reason', v.reason)
  FROM unprocessed_void v JOIN unprocessed u ON u.id = v.unprocessed_id WHERE u.animal_id = @id
UNION ALL
  SELECT 6, n.id, 'notice', n.at, n.by, json_object('step', n.step, 'how', n.how, 'on', n.sent_on, 'note', n.note)
  FROM pickup_notice n WHERE n.animal_id = @id
UNION ALL
  SELECT 6, n.id, 'notice-voided', v.at, v.by, json_object('step', n.step, 'how', n.how, 'reason', v.reason)
  FROM pickup_notice_void v JOIN pickup_notice n ON n.id = v.notice_id WHERE n.animal_id = @id
UNION ALL
  SELECT 2, p.id, 'shared', p.at, p.by, json_object('basis', p.basis, 'reason', p.reason, 'parts',
    (SELECT group_concat(h.name || ' ' || s.typed, ', ' ORDER BY s.position) FROM share s JOIN hunter h ON h.id = s.hunter_id WHERE s.split_id = p.id),
    'hunters', (SELECT count(*) FROM share s WHERE s.split_id = p.id))
  FROM share_split p WHERE p.animal_id = @id
UNION ALL
  SELECT 7, r.id, 'part-released', r.at, r.by, json_object('to', r.given_to, 'on', r.taken_on, 'unpaidBy', r.unpaid_override,
    'hunter', (SELECT h.name FROM hunter h WHERE h.id = r.hunter_id))
  FROM share_pickup r WHERE r.animal_id = @id
UNION ALL
  SELECT 7, r.id, 'part-voided', v.at, v.by, json_object('reason', v.reason,
    'hunter', (SELECT h.name FROM hunter h WHERE h.id = r.hunter_id))
  FROM share_pickup_void v JOIN share_pickup r ON r.id = v.pickup_id WHERE r.animal_id = @id
UNION ALL
  SELECT 2, b.id, 'belonging-came', b.at, b.by, json_object('kind', b.kind, 'tag', b.tag, 'place', b.place, 'note', b.note)
  FROM belonging b WHERE b.animal_id = @id
UNION ALL
  SELECT 6, b.id, 'belonging-voided', v.at, v.by, json_object('kind', b.kind, 'tag', b.tag, 'reason', v.reason)
  FROM belonging_void v JOIN belonging b ON b.id = v.belonging_id WHERE b.animal_id = @id
UNION ALL
  SELECT 6, e.id, 'belonging-went', e.at, e.by, json_object('kind', b.kind, 'tag', b.tag, 'went', e.went, 'name', e.name,
    'receipt', e.receipt, 'on', e.ended_on, 'note', e.note)
  FROM belonging_end e JOIN belonging b ON b.id = e.belonging_id WHERE b.animal_id = @id
UNION ALL
  SELECT 6, e.id, 'belonging-back', v.at, v.by, json_object('kind', b.kind, 'tag', b.tag, 'went', e.went, 'reason', v.reason)
  FROM belonging_end_void v JOIN belonging_end e ON e.id = v.end_id JOIN belonging b ON b.id = e.belonging_id
  WHERE b.animal_id = @id
UNION ALL
  SELECT 6, p.id, 'photographed', p.at, p.by, json_object('kind', p.kind) FROM photograph p WHERE p.animal_id = @id
UNION ALL
  SELECT 6, p.id, 'photo-voided', v.at, v.by, json_object('kind', p.kind, 'reason', v.reason)
  FROM photograph_void v JOIN photograph p ON p.id = v.photograph_id WHERE p.animal_id = @id
UNION ALL
  SELECT 6, p.id, 'photo-removed', r.at, r.by, json_object('kind', p.kind)
  FROM photograph_removal r JOIN photograph p ON p.id = r.photograph_id WHERE p.animal_id = @id
UNION ALL
  SELECT 6, c.id, 'called', c.at, c.by, json_object('text', c.text) FROM call_note c WHERE c.animal_id = @id
UNION ALL
  SELECT 6, n.id, 'affected-note', n.at, n.by, json_object('deed', n.what, 'ticket', s.ticket, 'note', n.note)
  FROM affected_note n JOIN animal s ON s.id = n.source_id WHERE n.animal_id = @id
UNION ALL
  SELECT 6, n.id, 'affected-note-voided', v.at, v.by, json_object('deed', n.what, 'ticket', s.ticket, 'reason', v.reason)
  FROM affected_note n JOIN affected_note_void v ON v.note_id = n.id JOIN animal s ON s.id = n.source_id WHERE n.animal_id = @id
UNION ALL
  SELECT 8, r.id, 'released', r.at, r.by,
    json_object('to', r.given_to, 'on', r.released_on, 'unpaidBy', r.unpaid_override, 'note', r.note)
  FROM release r WHERE r.animal_id = @id
UNION ALL
  SELECT 8, d.id, 'disposed', d.at, d.by,
    json_object('disposedOf', d.what, 'how', d.how, 'on', d.disposed_on, 'reason', d.reason)
  FROM disposal d WHERE d.animal_id = @id
ORDER BY at DESC, rank DESC, id DESC`;

/** The history of one animal. */
export function historyRecords(db: Db) {
  const ofAnimal = db.prepare<{ id: number }, HistoryRow>(HISTORY);
  return {
    /** Newest first. */
    ofAnimal: (id: number) => ofAnimal.all({ id }),
  };
}
