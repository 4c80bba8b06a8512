import { describe, expect, it } from 'vitest';
import { ticketOf } from '../../../src/book/records/season-mark.ts';
import { isFullTicket, quickTicket } from '../../../src/ui/calls/quick-ticket.ts';
import { fitHooks, NARROWEST, WIDEST } from '../../../src/ui/frame/rail-fit.ts';
import { makeScan, READER_MS } from '../../../src/ui/frame/scan.ts';
import { shortTicket } from '../../../src/ui/frame/short-ticket.ts';
import { tagShape } from '../../../src/ui/tags/tag-shape.ts';

describe('quickTicket', () => {
  it.each([
    ['147', '26-0147'],
    ['0147', '26-0147'],
    [' 26-147 ', '26-0147'],
    ['26-0147', '26-0147'],
    ['260147', '26-0147'],
    ['25 0012', '25-0012'],
    ['12345', '26-12345'],
  ])('reads %s as %s', (typed, ticket) => expect(quickTicket(typed, 2026)).toBe(ticket));

  it.each(['', '0', 'Okonjo', '18.62', '8.4kg', '1234567', '26-'])('rejects %s as a ticket', (typed) =>
    expect(quickTicket(typed, 2026)).toBeNull(),
  );

  it.each([1900, 1926, 1999, 2000, 2003, 2026, 2099, 2100, 2126])(
    'formats a ticket of season %i like the book, and recognizes it when scanned',
    (season) => {
      const ticket = ticketOf(season, 12);
      expect(quickTicket('12', season)).toBe(ticket);
      expect(quickTicket(ticket, 2026)).toBe(ticket);
      expect(isFullTicket(ticket)).toBe(true);
    },
  );

  it('keeps the leading zero of a season', () => expect(quickTicket('7', 2003)).toBe('03-0007'));

  it('distinguishes a ticket from a weight in the number entry', () => {
    expect(isFullTicket('26-0147')).toBe(true);
    expect(isFullTicket('147')).toBe(false);
    expect(isFullTicket('18.62')).toBe(false);
  });
});

describe('makeScan', () => {
  const type = (text: string, pauseMs: number, longestMs?: number): (string | null)[] => {
    const scan = makeScan(longestMs);
    return [...text, 'Enter'].map((key, index) => scan.press(key, index * pauseMs));
  };

  it('returns a scanned number on Enter', () => expect(type('26-0147', 15).at(-1)).toBe('26-0147'));
  it('waits for fast typing', () => expect(type('147', 400).at(-1)).toBe('147'));
  it('distinguishes a reader from typing in a field', () => {
    expect(type('26-0147', 20, READER_MS).at(-1)).toBe('26-0147');
    expect(type('26-0147', 120, READER_MS).at(-1)).toBeNull();
  });
  it('drops old digits', () => expect(type('147', 3000).at(-1)).toBeNull());
  it('treats a single digit as a choice, not as a ticket', () => expect(type('2', 15).at(-1)).toBeNull());
  it('leaves Enter to a button reached by Tab after choices picked by number', () => {
    const scan = makeScan();
    const pressed = ['4', 'Tab', '1', 'Tab', '3', 'Tab', 'Enter'].map((key, i) => scan.press(key, i * 50));
    expect(pressed.at(-1)).toBeNull();
  });
  it('restarts right after a field was emptied', () => {
    const scan = makeScan(READER_MS);
    scan.press('Backspace', 0);
    expect(scan.goesOn(10)).toBe(false);
    scan.press('2', 10);
    expect(scan.goesOn(22)).toBe(true);
    expect(scan.goesOn(10 + READER_MS + 1)).toBe(false);
  });
  it('restarts after a letter', () => expect(type('14x26', 15).at(-1)).toBe('26'));
});

describe('fitHooks', () => {
  const hooks = Array.from({ length: 24 }, (_, index) => index);

  it('shows all that fit, no wider than a hook is drawn', () => {
    expect(fitHooks(hooks, 24 * WIDEST + 500, null)).toEqual({ shown: hooks, more: 0, pitch: WIDEST });
    expect(fitHooks([], 1318, null)).toEqual({ shown: [], more: 0, pitch: WIDEST });
  });

  it('hangs 24 hooks side by side on a window of 1366 px', () => {
    const { more, pitch } = fitHooks(hooks, 1318, null);
    expect(more).toBe(0);
    expect(pitch * 24).toBeLessThanOrEqual(1318);
    expect(pitch).toBeGreaterThanOrEqual(NARROWEST);
  });

  it('counts the hidden ones, and leaves room for their stack', () => {
    const { shown, more, pitch } = fitHooks(hooks, 976, null);
    expect(shown).toEqual(hooks.slice(0, shown.length));
    expect(shown.length + more).toBe(24);
    expect((shown.length + 1) * pitch).toBeLessThanOrEqual(976);
  });

  it('never hides the one on the table', () => {
    const { shown, more } = fitHooks(hooks, 976, 23);
    expect(shown.at(-1)).toBe(23);
    expect(shown.length + more).toBe(24);
  });
});

describe('shortTicket', () => {
  it.each([
    ['26-0178', '178'],
    ['26-0005', '5'],
    ['26-12345', '12345'],
  ])('says %s as %s', (ticket, short) => expect(shortTicket(ticket)).toBe(short));
});

describe('tagShape', () => {
  it('has a distinct outline for every state, so that color is not needed', () => {
    const shapes = (['fresh', 'ready', 'due', 'over'] as const).map(tagShape);
    expect(new Set(shapes).size).toBe(4);
  });
});
