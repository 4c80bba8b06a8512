/** Faults of a log's values: none, a broken sensor, the other scale of degrees, a jump there and back. */
import type { LogFault } from './clock.ts';

interface Value {
  readonly at: number;
  readonly f: number | null;
}

/**
 * The inside of a product is never colder or hotter: loggers write −40, 999 and the like for a broken sensor, and water boils at
 * 212 °F. Our choice.
 */
const COLDEST_F = -22;
const HOTTEST_F = 212;
/** 212 °F taken for °C, in °F. */
const HOTTEST_AS_C = 414;
/** A product does not change so much from one reading to the next and back. Our choice. */
const JUMP_F = 40;
/** How near the converted value must come to its neighbours to be one of the other scale. Our choice. */
const NEAR_F = 15;

/** @param hotF the temperature that the product must have had at some time */
export function valueFaults(values: readonly Value[], degrees: 'F' | 'C', hotF: number): LogFault[] {
  const whole = wholeLog(values, degrees, hotF);
  // Each value of such a log would be at fault for the same reason.
  if (whole) return [whole];
  const faults: LogFault[] = [];
  for (const [index, { f }] of values.entries())
    if (!follows(f, values[index - 1]?.f ?? null)) {
      const fault = faultAt(values, index, degrees);
      if (fault) faults.push(fault);
    }
  return faults;
}

function faultAt(values: readonly Value[], index: number, degrees: 'F' | 'C'): LogFault | null {
  const { at, f } = values[index] as Value;
  const fault = (code: LogFault['code'], told: LogFault['with'] = {}): LogFault => ({
    code,
    index,
    at,
    with: told,
    drops: true,
  });
  if (f === null) return fault('reading.missing');
  const around = [soundBefore(values, index), soundAfter(values, index)].filter((one) => one !== null);
  const other = degrees === 'F' ? (f * 9) / 5 + 32 : ((f - 32) * 5) / 9;
  const apart = around.length > 0 && around.every((one) => Math.abs(f - one) > JUMP_F);
  if (apart && around.every((one) => Math.abs(other - one) <= NEAR_F)) return fault('reading.degrees', { f });
  if (!isPossible(f)) return fault('reading.sensor', { f });
  const [before, after] = around;
  const spike = before !== undefined && after !== undefined && apart && f > before === f > after;
  return spike ? fault('reading.spike', { f }) : null;
}

/** A sound value beside another sound one is at no fault: nearly all are. */
function follows(f: number | null, before: number | null): boolean {
  return (
    f !== null && before !== null && isPossible(f) && isPossible(before) && Math.abs(f - before) <= JUMP_F
  );
}

/**
 * A log in the other scale throughout: said to be in °C and a quarter of it above boiling, or said to be in °F and as hot at most as a hot
 * product is in °C.
 */
function wholeLog(values: readonly Value[], degrees: 'F' | 'C', hotF: number): LogFault | null {
  const first = values[0];
  let [known, inFahrenheit, most] = [0, 0, -Infinity];
  for (const { f } of values) {
    if (f === null) continue;
    known += 1;
    if (f > HOTTEST_F && f < HOTTEST_AS_C) inFahrenheit += 1;
    if (isPossible(f)) most = Math.max(most, f);
  }
  if (known === 0 || !first) return null;
  const fault: LogFault = {
    code: 'log.degrees',
    index: 0,
    at: first.at,
    with: { degrees },
    drops: false,
  };
  if (degrees === 'C') return inFahrenheit * 4 > known ? fault : null;
  return most <= 100 && most >= ((hotF - 32) * 5) / 9 ? fault : null;
}

const isPossible = (f: number): boolean => f >= COLDEST_F && f <= HOTTEST_F;

function soundBefore(values: readonly Value[], index: number): number | null {
  for (let i = index - 1; i >= Math.max(0, index - LOOK); i--) {
    const f = values[i]?.f ?? null;
    if (f !== null && isPossible(f)) return f;
  }
  return null;
}

function soundAfter(values: readonly Value[], index: number): number | null {
  for (let i = index + 1; i <= Math.min(values.length - 1, index + LOOK); i++) {
    const f = values[i]?.f ?? null;
    if (f !== null && isPossible(f)) return f;
  }
  return null;
}

/** Readings to either side in which a sound neighbour is looked for. */
const LOOK = 10;
