/** Which readings to ask about when a balance does not close. */
import { normalQuantile } from './distributions.ts';
import type { Edge } from './balance-graph.ts';
import type { Flow } from './balance-input.ts';
import type { Solved } from './balance-solve.ts';
import { likelyMistypes, type Mistype } from './mistype.ts';
import { readingGrams } from './reading.ts';

/** A reading, or a belief, that does not fit the rest. */
export interface Suspect {
  id: string;
  /** Its measurement test; below 0 the rest asks for less than was read. */
  z: number;
  /** The slip that would close the balance best; none if no single slip does or the reading was not given. */
  likelyTyped?: Mistype;
  /** True if it is the prior of the flow that does not fit: then the animal is unusual, or another reading is wrong. */
  believed: boolean;
  /** Ids of the suspects that the balance cannot tell from this one: their z is as large for the same reason. */
  tiedWith: string[];
}

/** Two z within this share of each other are the same test of the same balance. */
const SAME = 1e-6;
/** A slip must land within so many standard deviations of what the rest asks for. */
const NEAR = 2;

/**
 * The |z| above which one of `count` readings stands out, so that all together raise a false alarm in a share
 * `level` of balances (Šidák's inequality, as Mah & Tamhane, AIChE J. 28:828, 1982, use it; readings of one
 * balance hang together, so the true share is smaller).
 * @example criticalZ(0.05, 1) // 1.96; criticalZ(0.05, 10) // 2.80
 */
export function criticalZ(level: number, count: number): number {
  const each = -Math.expm1(Math.log1p(-level) / Math.max(1, count));
  return normalQuantile(1 - each / 2);
}

/**
 * Those above `critical`, and in any case those that share the largest |z|; the largest first. Among suspects that
 * cannot be told apart, those that a slip explains come first, the most plausible slip leading, then other
 * readings, then beliefs.
 */
export function rankSuspects(
  flows: readonly Flow[],
  edges: readonly Edge[],
  solved: readonly Solved[],
  critical: number,
): Suspect[] {
  const tested = edges
    .flatMap((edge, i) => {
      const { z, others } = solved[i] as Solved;
      return z === null || others === null ? [] : [{ edge, z, others }];
    })
    .sort((a, b) => Math.abs(b.z) - Math.abs(a.z));
  const largest = Math.abs(tested[0]?.z ?? 0);
  const suspects: (Suspect & { rank: number })[] = [];
  let rank = largest;
  for (const { edge, z, others } of tested) {
    const size = Math.abs(z);
    if (size < largest * (1 - SAME) && size <= critical) break;
    if (size < rank * (1 - SAME)) rank = size;
    const flow = flows[edge.flow] as Flow;
    const likelyTyped = edge.believed ? undefined : slipOf(flow, others);
    suspects.push({
      id: flow.id,
      z,
      believed: edge.believed,
      tiedWith: [],
      rank,
      ...(likelyTyped && { likelyTyped }),
    });
  }
  const plausibility = (one: Suspect) => one.likelyTyped?.plausibility ?? (one.believed ? -1 : 0);
  suspects.sort(
    (a, b) =>
      b.rank - a.rank || plausibility(b) - plausibility(a) || (a.id < b.id ? -1 : Number(a.id > b.id)),
  );
  return suspects.map(({ rank, ...one }) => {
    const tied = suspects.filter((other) => other.rank === rank && other.id !== one.id);
    return { ...one, tiedWith: [...new Set(tied.map((other) => other.id))] };
  });
}

/** The reading may include a tare, so the target is what was read plus the change that the rest asks for. */
function slipOf(
  { grams, reading, tareGrams }: Flow,
  others: NonNullable<Solved['others']>,
): Mistype | undefined {
  if (!reading || grams === null) return undefined;
  const target = readingGrams(reading) + others.grams - grams;
  return likelyMistypes(reading, NEAR * others.sd, target, tareGrams)[0];
}
