/** A mixed-integer linear program, and the only call of the HiGHS solver (Huangfu & Hall, Math. Prog. Comp. 10:119, 2018). */
import loadHighs from 'highs';
import { ValidationError } from '../values/validation-error.ts';

export interface Column {
  readonly lower: number;
  /** May be Infinity. */
  readonly upper: number;
  /** Coefficient in the objective, which is minimised. */
  readonly cost: number;
  readonly whole?: boolean;
}

export interface Row {
  readonly terms: readonly (readonly [column: number, coefficient: number])[];
  /** May be -Infinity. */
  readonly lower: number;
  /** May be Infinity. */
  readonly upper: number;
}

export interface Program {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** With integer columns: the absolute optimality gap; default 1e-7. */
  readonly absoluteGap?: number;
}

export interface Solution {
  readonly values: readonly number[];
}

/** Relative optimality gap with whole steps: with hundreds of sources the last cent would take minutes to prove. */
const WHOLE_STEP_GAP = 1e-5;

/** Time limits in seconds: ten thousand sources take half a second, a hard integer case may never end. */
const TIME_LIMIT = 10;
const WHOLE_STEP_TIME_LIMIT = 2;

/** Rows are met to ten digits (nine with whole steps). */
const OPTIONS = {
  primal_feasibility_tolerance: 1e-10,
  dual_feasibility_tolerance: 1e-10,
  mip_feasibility_tolerance: 1e-9,
  mip_rel_gap: WHOLE_STEP_GAP,
  small_matrix_value: 1e-12,
  output_flag: false,
} as const;

type Highs = Awaited<ReturnType<typeof loadHighs>>;
let loaded: Promise<Highs> | undefined;

/**
 * The best values of the columns, or null when the solver proves that nothing satisfies the rows. Only "Optimal" is
 * accepted: unreadable text, for example, does not throw but gives "Empty". The programs made here are all bounded,
 * so "infeasible or unbounded" means infeasible.
 * @throws ValidationError `blend.too-long` after ten seconds (two with whole steps), `blend.solver` for any other
 *   status
 */
export async function solve(program: Program): Promise<Solution | null> {
  const text = programText(program);
  const whole = program.columns.some((column) => column.whole);
  loaded ??= loadHighs();
  let result: ReturnType<Highs['solve']>;
  try {
    result = (await loaded).solve(text, {
      ...OPTIONS,
      mip_abs_gap: program.absoluteGap ?? 1e-7,
      time_limit: whole ? WHOLE_STEP_TIME_LIMIT : TIME_LIMIT,
    });
  } catch (error) {
    loaded = undefined; // a WebAssembly module that threw is not reused
    throw new ValidationError('blend.solver', undefined, { status: String(error) });
  }
  if (result.Status === 'Infeasible' || result.Status === 'Primal infeasible or unbounded') return null;
  if (result.Status === 'Time limit reached') throw new ValidationError('blend.too-long');
  if (result.Status !== 'Optimal')
    throw new ValidationError('blend.solver', undefined, { status: result.Status });
  return { values: program.columns.map((_, i) => (result.Columns[`x${i}`] as { Primal: number }).Primal) };
}

/** The program in CPLEX LP format, its columns named x0, x1, … so that no product's name can break the text. */
export function programText(program: Program): string {
  const rows = program.rows.flatMap((row, i) => rowLines(row, i));
  const whole = program.columns.flatMap((column, i) => (column.whole ? [` x${i}`] : []));
  return [
    'Minimize',
    ' cost:',
    ...program.columns.map((column, i) => term(column.cost, i)),
    'Subject To',
    ...rows,
    'Bounds',
    ...program.columns.map((column, i) =>
      column.upper === Infinity
        ? ` x${i} >= ${column.lower}`
        : ` ${column.lower} <= x${i} <= ${column.upper}`,
    ),
    ...(whole.length > 0 ? ['General', ...whole] : []),
    'End',
    '',
  ].join('\n');
}

function rowLines(row: Row, index: number): string[] {
  const terms = row.terms.map(([column, coefficient]) => term(coefficient, column));
  if (row.lower === row.upper) return [` r${index}:`, ...terms, ` = ${row.lower}`];
  return [
    ...(row.lower > -Infinity ? [` r${index}a:`, ...terms, ` >= ${row.lower}`] : []),
    ...(row.upper < Infinity ? [` r${index}b:`, ...terms, ` <= ${row.upper}`] : []),
  ];
}

function term(coefficient: number, column: number): string {
  return ` ${coefficient < 0 ? '-' : '+'} ${Math.abs(coefficient)} x${column}`;
}
