import type { Book } from '../../book/book.ts';

/** The demo's calendar stands still at a Saturday in November, so that its season looks the same all year. */
export const DEMO_NOW = new Date('2026-11-14T17:30:00Z');

export async function fillDemo(book: Book): Promise<void> {
  book.settings.put('shopName', 'Demo');
}
