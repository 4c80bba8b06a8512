/** A CSV file in a spreadsheet engine of another maker, as an accountant opens it. */
import { parse } from 'csv-parse/sync';
import { HyperFormula } from 'hyperformula';

export const parseCsv = (csv: string): string[][] => parse(csv, { bom: true });

/** The sheet of a file in the engine; a formula is asked of it as it would be in a cell, and answered in cents. */
export function sheetOf(csv: string): { rows: string[][]; ask: (formula: string) => number } {
  const rows = parseCsv(csv);
  const engine = HyperFormula.buildFromArray(rows, { licenseKey: 'gpl-v3' });
  return {
    rows,
    ask(formula) {
      const value = engine.calculateFormula(formula, 0);
      if (typeof value !== 'number') throw new Error(`${formula}: ${JSON.stringify(value)}`);
      return Math.round(value * 100);
    },
  };
}
