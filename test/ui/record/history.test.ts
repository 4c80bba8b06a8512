import { describe, expect, it } from 'vitest';
import type { HistoryChange, HistoryEntry, HistoryKind } from '../../../src/bridge/contract.ts';
import { changeText } from '../../../src/ui/record/history-values.ts';
import { changesBeside, historySentence, reasonBeside } from '../../../src/ui/record/history-words.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';

const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'USD' });
const entry = (what: HistoryKind, facts: HistoryEntry['facts'] = {}, more: Partial<HistoryEntry> = {}) => ({
  at: '2026-11-25T12:00:00Z', by: 'MK', what, facts, changes: [], reason: '', ...more,
}); // prettier-ignore
const weight = { stage: 'cut', part: 'trim', primal: null, product: null, count: null, typed: '18.2', unit: 'lb', tare: null, batch: null }; // prettier-ignore

describe('a history sentence', () => {
  it.each<[HistoryEntry, string]>([
    [entry('taken-in'), 'Checked in.'],
    [entry('brought-in', { file: 'old.csv' }), 'Imported from the file old.csv.'],
    [entry('quote', { quote: 'Q26-0001' }), 'From quote Q26-0001.'],
    [entry('hung', { cooler: 'Cold room 1', place: 'hook 12' }), 'Hung in Cold room 1, hook 12.'],
    [entry('hung', { cooler: 'Cold room 1', place: '' }), 'Hung in Cold room 1.'],
    [entry('weighed', weight), 'Weighed: trim 18.2 lb.'],
    [entry('weighed', { ...weight, primal: 'Haunch', tare: '1.2' }), 'Weighed: trim of Haunch 18.2 lb less 1.2.'],
    [entry('weighed', { ...weight, stage: 'grinder', batch: 'G26-001' }), 'Weighed into batch G26-001: trim 18.2 lb.'],
    [entry('weighed', { ...weight, stage: 'packed', part: 'package', product: 'Steaks', count: 12 }), 'Weighed: 12 × Steaks, 18.2 lb.'],
    [entry('weight-corrected', { ...weight, was: '81.2', wasUnit: 'lb', wasTare: null }), 'Weight corrected: trim 18.2 lb, was 81.2 lb.'],
    [entry('weight-moved', { ...weight, fromStage: 'cut', fromPart: 'bone', fromPrimal: null }), 'Weight moved: trim 18.2 lb, entered as bone.'],
    [entry('weight-moved-here', { ...weight, ticket: '26-0004', fromStage: 'cut', fromPart: 'trim', fromPrimal: null }), 'Weight moved here from 26-0004: trim 18.2 lb.'],
    [
      entry('weight-moved-here', { ...weight, ticket: '26-0004', fromStage: 'hanging', fromPart: 'carcass', fromPrimal: null }),
      'Weight moved here from 26-0004: trim 18.2 lb, entered there as hanging weight.',
    ],
    [entry('weight-moved-away', { ...weight, ticket: '26-0004' }), 'Weight moved to 26-0004: trim 18.2 lb.'],
    [
      entry('changed', {}, { changes: [{ field: 'stage', before: 'hanging', after: 'canceled' }] }),
      'The intake was canceled.',
    ],
    [entry('shared', { basis: 'percent', parts: 'Ann 60, Ben 40', hunters: 2 }), 'Shared by percent: Ann 60, Ben 40.'],
    [entry('shared', { basis: 'percent', parts: 'Ann', hunters: 1 }), 'Ann has all of it.'],
    [
      entry('part-released', { hunter: 'Ben', to: 'Ben', on: '2026-11-25', unpaidBy: 'RO' }),
      'Ben’s part was handed over to Ben on Nov 25, 2026, unpaid, approved by RO.',
    ],
    [entry('part-voided', { hunter: 'Ben' }), 'Ben’s part is here again.'],
    [entry('belonging-came', { kind: 'cape', tag: 'A-7', place: '', note: '' }), 'Came with it: Cape, tag A-7.'],
    [entry('belonging-voided', { kind: 'cape' }), 'Cape voided: it did not come with the animal.'],
    [
      entry('belonging-went', { kind: 'cape', went: 'taxidermist', name: 'Pine Studio', receipt: 'R-12', on: '2026-11-25', note: '' }),
      'Cape to the taxidermist Pine Studio on Nov 25, 2026, receipt R-12.',
    ],
    [entry('belonging-back', { kind: 'cape' }), 'Cape is still here: it had not left.'],
    [
      entry('donated', { program: 'Hunters Share', grams: 453.59237, confirmation: 'HS-88', on: '2026-11-25' }),
      '1.00 lb donated to Hunters Share on Nov 25, 2026, confirmation HS-88.',
    ],
    [
      entry('donation-voided', { program: 'Hunters Share', grams: 453.59237 }),
      'Donation of 1.00 lb to Hunters Share voided.',
    ],
    [entry('as-came'), 'To be returned unprocessed.'],
    [entry('processed-after-all'), 'It will be processed after all.'],
    [
      entry('notice', { step: 'first', how: 'call', on: '2026-11-25', note: 'left word' }),
      'First notice, call, Nov 25, 2026: left word.',
    ],
    [entry('notice-voided', { step: 'first' }), 'First notice voided.'],
    [entry('weight-voided', { ...weight, unit: 'kg' }), 'Weight voided: trim 18.2 kg.'],
    [entry('held', { sample: 'L26-4' }, { reason: 'sample' }), 'Put on hold: sample pending, number L26-4.'],
    [entry('held', { sample: '' }, { reason: 'smells' }), 'Put on hold: smells.'],
    [entry('hold-ended', { outcome: 'cleared', note: 'not detected' }), 'The hold ended: nothing found. not detected.'],
    [entry('hold-ended', { outcome: 'positive', note: '' }), 'The result was positive; the hold stays.'],
    [
      entry('test-result', { result: 'not detected', sample: 'L-7', lab: 'State lab', on: '2026-11-25', note: '' }),
      'Test result: not detected (sample L-7, State lab, reported Nov 25, 2026); the hold ended.',
    ],
    [
      entry('test-result', { result: 'positive', sample: '', lab: '', on: '2026-11-25', note: 'called' }),
      'Test result: positive (reported Nov 25, 2026); the hold stays. called.',
    ],
    [
      entry('test-result', { result: 'none', sample: '', lab: '', on: '2026-11-25', note: '' }),
      'The test result was voided; the hold is waiting for a result again.',
    ],
    [entry('batched', { batch: 'G26-001', product: 'Links', others: 0 }), 'Put into batch G26-001 (Links), by itself.'],
    [entry('batched', { batch: 'G26-001', product: 'Links', others: 1 }), 'Put into batch G26-001 (Links), with 1 other animal.'],
    [entry('fat-moved', { kind: 'counted', grams: -453.59237 }), 'Its saved fat was counted: 1.00 lb less than recorded.'],
    [entry('fat-moved', { kind: 'thrown out', grams: -453.59237 }), 'Saved fat thrown out: 1.00 lb.'],
    [entry('billed', { number: 7, totalMinor: 9500, currency: 'USD' }), 'Bill 7 created: $95.00.'],
    [entry('bill-voided', { number: 7, totalMinor: 9500, currency: 'USD' }), 'Bill 7 of $95.00 voided.'],
    [entry('paid', { kind: 'deposit', method: 'cash', amountMinor: 2000, currency: 'USD' }), 'Deposit of $20.00 (Cash).'],
    [entry('paid', { kind: 'refund', method: 'cash', amountMinor: 2000, currency: 'USD' }), '$20.00 refunded (Cash).'],
    [entry('payment-voided', { kind: 'payment', method: 'card', amountMinor: 2000, currency: 'USD' }), 'Payment of $20.00 (Card) voided.'],
    [entry('called', { text: 'left a message' }), 'Call: left a message.'],
    [entry('released', { to: 'Bo', on: '2026-11-25', unpaidBy: 'RO', note: '' }), 'Handed over to Bo on Nov 25, 2026, unpaid, approved by RO.'],
    [entry('disposed', { disposedOf: 'All', how: 'Lined landfill', on: '2026-11-25' }), 'Disposed of on Nov 25, 2026: All. Lined landfill.'],
    [entry('changed', {}, { changes: [{ field: 'stage', before: 'hanging', after: 'cutting' }] }), 'Moved from “Hanging” to “On the table”.'],
    [entry('changed', {}, { changes: [{ field: 'tag', before: '', after: 'E-1' }] }), 'The record was edited.'],
    [entry('owner-changed', {}, { changes: [{ field: 'phone', before: '', after: '1' }] }), 'The owner’s details were edited.'],
    [entry('owner-changed', { act: 'void' }), 'The owner’s personal details were removed.'],
    [entry('instructed'), 'The cut sheet was entered.'],
    [entry('instructed', {}, { changes: [{ field: 'note', before: '', after: 'x' }] }), 'The cut sheet was edited.'],
  ])('of $what describes the event', (one, said) => expect(historySentence(one, format)).toBe(said)); // prettier-ignore

  it('leaves other changes and the reason to the lines below it', () => {
    const moved = entry(
      'changed',
      {},
      { changes: [{ field: 'stage', before: 'hanging', after: 'cutting' }] },
    );
    const mended = entry(
      'changed',
      {},
      { changes: [{ field: 'tag', before: '', after: 'E-1' }], reason: 'misread' },
    );
    expect([changesBeside(moved), changesBeside(mended).length]).toEqual([[], 1]);
    expect([reasonBeside(moved), reasonBeside(mended)]).toEqual(['', 'Reason: misread']);
    expect(reasonBeside(entry('held', {}, { reason: 'smells' }))).toBe('');
  });
});

describe('a change', () => {
  it.each([
    [{ field: 'tag', before: '', after: 'E-1017' }, 'Tag or permit: nothing → E-1017'],
    [{ field: 'kill_date', before: null, after: '2026-10-08' }, 'Kill date: nothing → Oct 8, 2026'],
    [{ field: 'sex', before: 'unknown', after: 'female' }, 'Sex: Unknown → Female'],
    [{ field: 'cutsShare', before: 0.4, after: 0.5 }, 'Share kept as cuts: 40% → 50%'],
    [{ field: 'packageGrams', before: 453.59237, after: 907.18474 }, 'Package: 1.00 lb → 2.00 lb'],
    [
      { field: 'piece', of: 'Haunch', before: null, after: { as: 'whole', size: 'bone in' } },
      'Haunch: nothing → whole bone in',
    ],
    [{ field: 'refusesPooling', before: false, after: true }, 'Never pooled: no → yes'],
    [
      { field: 'alsoGround', before: [], after: ['Links', 'Patties'] },
      'Also ground: nothing → Links, Patties',
    ],
    [
      { field: 'parts', before: '', after: { pieces: [{ count: 2, primal: 'Haunch' }] } },
      'Pieces: nothing → 2 × Haunch',
    ],
  ] as [HistoryChange, string][])('reads %o', (change, said) =>
    expect(changeText(change, format)).toBe(said),
  );
});
