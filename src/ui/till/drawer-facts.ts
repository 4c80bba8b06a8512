import type { TillClosing, TillView } from '../../bridge/contract.ts';
import type { Fact } from '../parts/index.ts';
import { text } from '../../words/compiled/window/till.ts';
import { inCurrency, type Format } from '../texts/format.ts';

/** The drawer of a closed day, line by line: float, cash, expected, counted, over or short. */
export function drawerFacts(view: TillView, closing: TillClosing, shopFormat: Format): Fact[] {
  const { money } = inCurrency(shopFormat, view.currency);
  const { overMinor } = closing;
  const overName = overMinor === 0 ? text.even : overMinor > 0 ? text.over : text.short;
  return [
    [text.float, money(view.floatMinor)],
    ...inFloat(view.inFloatMinor, money),
    [text.cashIn, money(view.cashMinor)],
    [text.expected, money(view.expectedMinor)],
    [text.counted, money(closing.countedMinor)],
    [overName, money(Math.abs(overMinor))],
  ];
}

/** Late cash that the float already includes; empty if none. */
export function inFloat(minor: number, money: (minor: number) => string): Fact[] {
  return minor === 0 ? [] : [[text.inFloat, money(minor)]];
}
