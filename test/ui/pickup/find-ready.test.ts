import { describe, expect, it } from 'vitest';
import { findReady } from '../../../src/ui/pickup/find-ready.ts';
import type { Ready } from '../../../src/ui/pickup/message.ts';

const waiting = (ticket: string, hunter: string, phone: string, ...sharers: string[]): Ready =>
  ({ ticket, hunter, phone, shares: sharers.map((name) => ({ name })) }) as unknown as Ready;
const ready = [
  waiting('26-0162', 'José Bagley', '(719) 555-0111'),
  waiting('26-0167', 'Ann Alder', '(303) 555-0162', 'Bo Reyes'),
  waiting('25-0162', 'Ann Abel', ''),
];
const found = (typed: string): string[] => findReady(ready, typed, 2026).map(({ ticket }) => ticket);

describe('findReady', () => {
  it.each([
    ['', ['26-0162', '26-0167', '25-0162']],
    ['  ', ['26-0162', '26-0167', '25-0162']],
    // A ticket wins over a phone number with the same digits.
    ['162', ['26-0162']],
    ['26-0167', ['26-0167']],
    ['25-162', ['25-0162']],
    ['ann', ['26-0167', '25-0162']],
    ['jose b', ['26-0162']],
    ['BAGLEY', ['26-0162']],
    ['reyes', ['26-0167']],
    ['555-0111', ['26-0162']],
    ['303 555', ['26-0167']],
    ['555', []],
    ['nobody', []],
  ])('finds %j', (typed, tickets) => expect(found(typed)).toEqual(tickets));
});
