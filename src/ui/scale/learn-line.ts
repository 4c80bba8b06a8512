import { learnForm, parseScaleLine, type ScaleForm } from '../../core/scale/line.ts';
import type { MassUnit } from '../../core/values/units.ts';
import { problemOf, type ScaleProblem } from '../link/scale-watch.ts';

/** A printable line: non-text bytes become dots, so that positions stay the same. */
export function printable(line: string): string {
  return line.replace(/[^\x20-\x7e]/g, '·');
}

export interface Lesson {
  line: string;
  from: number;
  to: number;
  unit: MassUnit | '';
  decimals: number | null;
}

type Learnt = { ok: true; form: ScaleForm; typed: string } | { ok: false; problem: ScaleProblem };

/** The format that a marking would teach, and the line read with it. */
export function tryLesson({ line, from, to, unit, decimals }: Lesson): Learnt {
  try {
    const form = learnForm(line, { from, to }, unit || null, decimals);
    const read = parseScaleLine(line, form);
    return read.overload
      ? { ok: false, problem: { code: 'scale.no-weight', with: { line: printable(line) } } }
      : { ok: true, form, typed: read.typed };
  } catch (error) {
    return { ok: false, problem: problemOf(error) };
  }
}
