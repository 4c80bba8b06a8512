import { actor } from '../changes/acting.ts';
import type { Db } from '../file/db.ts';

interface AuditEntry {
  record: string;
  recordId: string | number;
  act: 'add' | 'change' | 'void';
  before?: unknown;
  after?: unknown;
  reason?: string;
  at: string;
  by: string;
}

/** Audit trail: who changed what and when, with the former and the new value. */
export function auditRecords(db: Db) {
  const insert = db.prepare(
    `INSERT INTO audit (record, record_id, act, before, after, reason, at, by, station_id, person, checked)
     VALUES (@record, @recordId, @act, @before, @after, @reason, @at, @by, @stationId, @person, @checked)`,
  );
  const of = db.prepare<[string, string], Record<string, string | null>>(
    'SELECT act, before, after, reason, at, by FROM audit WHERE record = ? AND record_id = ? ORDER BY id',
  );
  const json = (value: unknown): string | null => (value === undefined ? null : JSON.stringify(value));
  return {
    note(entry: AuditEntry): void {
      const acting = actor();
      insert.run({
        ...entry,
        recordId: String(entry.recordId),
        before: json(entry.before),
        after: json(entry.after),
        reason: entry.reason ?? '',
        stationId: acting?.stationId ?? null,
        person: acting?.person ?? null,
        checked: acting ? Number(acting.checked) : null,
      });
    },
    of: (record: string, recordId: string | number) => of.all(record, String(recordId)),
  };
}
