import { openDesk } from '../../src/desk/desk.ts';

/** What became of a book that was opened as the program opens it. */
export type Opened =
  /** It opened at once. */
  | { kind: 'open' }
  /** It was refused, and a backup of its list took its place. */
  | { kind: 'restored'; trouble: string; refusedBackups: number }
  /** It was refused, and nothing led back. */
  | { kind: 'stuck'; trouble: string };

/** Opens the book; where it is refused, takes the backups offered from the newest on until one opens. */
export async function openOrGoBack(bookPath: string): Promise<Opened> {
  const desk = await openDesk({ bookPath, upkeep: { backUpEvery: 1e9, lookEvery: 1e9 } });
  try {
    const trouble = desk.trouble()?.code;
    if (!trouble)
      return (await desk.call('shop.get', {})).ok ? { kind: 'open' } : { kind: 'stuck', trouble: 'look' };
    const look = await desk.call('shop.listBackups', {});
    const rows = look.ok ? (look.value as { rows: { path: string }[] }).rows : [];
    for (const [refusedBackups, { path }] of rows.entries()) {
      if (!(await desk.call('shop.restore', { path })).ok) continue;
      return (await desk.call('rail.get', {})).ok
        ? { kind: 'restored', trouble, refusedBackups }
        : { kind: 'stuck', trouble };
    }
    return { kind: 'stuck', trouble };
  } finally {
    desk.close();
  }
}
