/** Published sausage and ground-meat sums, by the two-part balance (Pearson square) and by the planner. */
import { describe, it } from 'vitest';
import { fatToAdd, planBlend } from '../../src/core/blend.ts';
import { check } from './record.ts';

const POUND = 453.59237;

/** Pounds of the fatter part that bring the leaner to the target, by the balance. */
function fatPounds(leanPounds: number, leanFat: number, fatFat: number, targetFat: number): number {
  const answer = fatToAdd({ leanGrams: leanPounds * POUND, leanFat, fatFat, targetFat });
  return answer.kind === 'add' ? answer.grams / POUND : NaN;
}

describe('Georgia FFA 2016: 500 lb of pan sausage at 28 % fat, by the Pearson square', () => {
  const source =
    'Georgia FFA Association, State Meat Formulation Problem 2016, https://studylib.net/doc/25302172/23862-meats-cde-problem-solving-2016-state (printed options)';
  it.each([
    ['50 % lean trim', 0.5, 1.89, 'ham', 0.2, 2.45, 2.3],
    ['50 % lean trim', 0.5, 1.89, 'shoulder', 0.23, 1.78, 1.8],
    ['40 % lean trim', 0.6, 1.69, 'shoulder', 0.23, 1.78, 1.77],
    ['40 % lean trim', 0.6, 1.69, 'ham', 0.2, 2.45, 2.3],
    ['30 % lean trim', 0.7, 1.56, 'ham', 0.2, 2.45, 2.31],
    ['30 % lean trim', 0.7, 1.56, 'shoulder', 0.23, 1.78, 1.76],
  ])('%s', (fatName, fat, fatPrice, leanName, lean, leanPrice, expected) => {
    const toOne = fatPounds(1, lean, fat, 0.28);
    const dollars = (toOne * fatPrice + leanPrice) / (toOne + 1);
    const name = `FFA 2016, square: ${fatName} + ${leanName}, dollars a pound`;
    check({ name, source, expected, got: Math.round(dollars * 100) / 100, tolerance: 1e-9 });
  });
});

it('belly and mince: 8 parts to 10', () => {
  const name = 'parts of 30 % belly to 10 parts of 12 % mince for 20 %';
  const source = 'sausage makers’ forum, post 21562 of 28 July 2007 on the Pearson square (read on a mirror)';
  check({ name, source, expected: 8, got: fatPounds(10, 0.12, 0.3, 0.2), digits: 12 });
});

it('fat to 14 lb of lean for 40 %', () => {
  const source = 'kosherdosher.blogspot.com/2021/02/sausagesalume-meatfat-ratio.html';
  const name = 'lb of fat to 14 lb of lean for 40 %';
  check({ name, source, expected: 9.33, got: fatPounds(14, 0, 1, 0.4), tolerance: 0.005 });
});

it('cow meat and trim at 20 %, by the square', () => {
  check({
    name: 'lb of 25 % trim to 333.33 lb of 10 % cow meat for 20 %',
    source: 'inputs: "Meat Calculations" teaching slides, https://slideplayer.com/slide/7660647; answer computed',
    expected: 2000 / 3,
    got: fatPounds(1000 / 3, 0.1, 0.25, 0.2),
    digits: 12,
  });
}); // prettier-ignore

describe('game and pork, half and half', () => {
  it('holds 15 % fat, so the 30 % pork alone says how much', async () => {
    const source =
      'video text "Fat Content Calculation", video2dn.com/video/ov43MgkgQOE: 12.5 lb of game at 0 % and 12.5 lb of pork butt at 30 %';
    const part = (id: string, fat: number) => ({ id, fat, availableGrams: 12.5 * POUND, costPerKg: 0, useAll: true });
    const sources = [part('game', 0), part('pork butt', 0.3)];
    const answer = await planBlend({ sources, fat: { min: 0, max: 1 } });
    const plan = answer.kind === 'plan' ? answer : null;
    check({
      name: '12.5 lb of game + 12.5 lb of pork butt: % fat, lb of batch',
      source,
      expected: [15, 25],
      got: [(plan?.fat ?? NaN) * 100, (plan?.batchGrams ?? NaN) / POUND],
      digits: 12,
    });
    const name = 'lb of pork butt to 12.5 lb of game for 15 %';
    check({ name, source, expected: 12.5, got: fatPounds(12.5, 0, 0.3, 0.15), digits: 12 });
  }); // prettier-ignore
});
