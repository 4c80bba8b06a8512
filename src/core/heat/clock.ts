/** Faults of a log's moments: out of order, doubled, or moved by a change of the clock. */
import { median } from '../stats/median.ts';

export interface LogFault {
  readonly code:
    | 'reading.missing'
    | 'reading.sensor'
    | 'reading.degrees'
    | 'reading.spike'
    | 'reading.double'
    | 'log.order'
    | 'log.clock-back'
    | 'log.clock-forward'
    | 'log.degrees';
  /** Place in the log, from 0. */
  readonly index: number;
  readonly at: number;
  readonly with: Readonly<Record<string, string | number>>;
  /** Whether the reading is left out of the sums. */
  readonly drops: boolean;
}

const HOUR = 3_600_000;
/** A logger that writes more seldom does not tell a changed clock from a gap. */
const SELDOM = 900_000;

/** The moments in the order of the file, ms. */
export function clockFaults(moments: readonly number[]): LogFault[] {
  const steps = moments.slice(1).map((at, i) => at - (moments[i] as number));
  const usual = median(steps.filter((step) => step > 0)) ?? 0;
  const near = (step: number, wanted: number): boolean => Math.abs(step - wanted) <= Math.max(usual, 60_000);
  const codeOf = (step: number): LogFault['code'] | null => {
    if (step === 0) return 'reading.double';
    if (step < 0) return near(step, usual - HOUR) ? 'log.clock-back' : 'log.order';
    return usual <= SELDOM && near(step, usual + HOUR) ? 'log.clock-forward' : null;
  };
  const faults: LogFault[] = [];
  for (const [i, step] of steps.entries()) {
    const code = codeOf(step);
    if (code === null) continue;
    const at = moments[i + 1] as number;
    faults.push({ code, index: i + 1, at, with: { minutes: step / 60_000 }, drops: step === 0 });
  }
  return faults;
}
