/** What stations show as saved, and what stands in the book, as a program of its own reads it. */
import Database from 'better-sqlite3';
import type { Page } from 'playwright-core';
import type { KeptEntry } from '../../../src/bridge/client/station/outbox.ts';
import type { FloorStation } from './floor.ts';

interface MountedPage extends Element {
  __vue_app__: { config: { globalProperties: { $pinia: { _s: Map<string, { entries: unknown }> } } } };
}

/** Every entry of a station as it keeps it, in the order of typing. */
export function entriesAt(page: Page): Promise<KeptEntry[]> {
  return page.evaluate(() => {
    const app = (document.querySelector('#station') as MountedPage).__vue_app__;
    return JSON.parse(
      JSON.stringify(app.config.globalProperties.$pinia._s.get('line')?.entries),
    ) as KeptEntry[];
  });
}

/** The texts of the entries that its list calls saved, oldest first. */
export async function savedOnScreen({ page }: FloorStation): Promise<string[]> {
  await page.getByRole('button', { name: 'All saved' }).tap();
  const list = page.getByRole('dialog');
  const shown = await list.locator('li.saved .what').allTextContents();
  await list.getByRole('button', { name: 'Close' }).tap();
  return shown.toReversed();
}

export interface Book {
  /** The stations' entries in the order in which the book took them. */
  entries: { station: number; entry: string; call: string; answer: Record<string, number> }[];
  animals: { id: number; hunter: string; stage: string }[];
  /** What hunters typed themselves, and the animal that it became. */
  drafts: { name: string; tag: string; signed: number; animal: number | null }[];
  photos: { station: number; kind: string; digest: string; animal: number }[];
  releases: { animal: number; to: string }[];
  /** Without those of an intake. */
  weights: { id: number; animal: number | null; typed: string; part: string }[];
  plates: string[];
}

/** Reads the file itself, beside the desk. */
export function readBook(path: string): Book {
  const db = new Database(path, { readonly: true });
  const entries = db
    .prepare<[], { station: number; entry: string; call: string; answer: string }>(
      `SELECT l.station_id AS station, e.entry, e.call, e.answer
       FROM station_entry e JOIN station_line l ON l.id = e.line_id ORDER BY e.id`,
    )
    .all();
  const book: Book = {
    entries: entries.map(({ answer, ...one }) => ({ ...one, answer: valueOf(answer) })),
    animals: db
      .prepare<[], Book['animals'][number]>(
        'SELECT a.id, h.name AS hunter, a.stage FROM animal a JOIN hunter h ON h.id = a.hunter_id ORDER BY a.id',
      )
      .all(),
    drafts: db
      .prepare<[], Book['drafts'][number]>(
        "SELECT name, tag, signature <> '' AS signed, animal_id AS animal FROM draft_now ORDER BY id",
      )
      .all(),
    photos: db
      .prepare<[], Book['photos'][number]>(
        'SELECT station_id AS station, kind, digest, animal_id AS animal FROM photograph ORDER BY id',
      )
      .all(),
    releases: db
      .prepare<[], Book['releases'][number]>(
        'SELECT animal_id AS animal, given_to AS "to" FROM release ORDER BY id',
      )
      .all(),
    weights: db
      .prepare<[], Book['weights'][number]>(
        "SELECT id, animal_id AS animal, typed, part FROM weighing WHERE stage <> 'received' ORDER BY id",
      )
      .all(),
    plates: db.prepare<[], string>('SELECT plate FROM grind_pass ORDER BY id').pluck().all(),
  };
  db.close();
  return book;
}

function valueOf(answer: string): Record<string, number> {
  const read = JSON.parse(answer) as { ok: boolean; value?: Record<string, number> };
  return read.value ?? {};
}
