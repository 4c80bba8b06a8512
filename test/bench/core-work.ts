/** The calculations, beside a bare call of the library that does the same sum. */
import loadHighs from 'highs';
import { Matrix, solve } from 'ml-matrix';
import { mean, variance } from 'simple-statistics';
import { reconcile, type Flow } from '../../src/core/balance/balance.ts';
import { fatToAdd, planBlend, type BlendSource } from '../../src/core/blend/blend.ts';
import { seededRandom } from '../../src/core/stats/random.ts';
import { learn, type YieldObservation } from '../../src/core/yield/yield.ts';
import { SPECIES } from '../../src/desk/supplied/resources.ts';
import type { Measure } from './timing.ts';

const ANIMALS = 100_000;

export async function coreWork(): Promise<Measure[]> {
  const highs = await loadHighs();
  return [
    learning(),
    ...[2, 10, 50].map((count): Measure => {
      const sources = sourcesOf(count);
      return {
        name: `fat to add, two parts, beside a plan of ${count} sources`,
        run: () => fatToAdd({ leanGrams: 20_000, leanFat: 0.04, fatFat: 0.8, targetFat: 0.15 }),
        baseline: {
          what: 'the plan',
          run: () => planBlend({ sources, fat: { min: 0.15, max: 0.15 } }),
        },
      };
    }),
    ...[2, 10, 50].map((count): Measure => {
      const sources = sourcesOf(count);
      const program = programOf(sources);
      return {
        name: `plan a blend of ${count} sources`,
        run: () => planBlend({ sources, fat: { min: 0.15, max: 0.15 } }),
        baseline: { what: 'bare solver call', run: () => highs.solve(program) },
        ...(count === 10 ? { bar: { ms: 30 } } : {}),
      };
    }),
    ...[10, 30, 100].map((count): Measure => {
      const input = flowsOf(count);
      const { left, right } = normalEquations(input.flows, input.nodes);
      return {
        name: `reconcile ${count} flows`,
        run: () => reconcile(input),
        baseline: { what: 'one dense solve', run: () => solve(left, right) },
      };
    }),
  ];
}

/** The model from a hundred thousand animals, beside plain means and variances of the same weights. */
function learning(): Measure {
  const observations = animals();
  return {
    name: `learn yields from ${ANIMALS.toLocaleString('en')} animals`,
    rounds: 7,
    run: () => learn(SPECIES, observations),
    baseline: {
      what: 'plain means and variances',
      run: () => {
        const columns: Record<string, number[]> = {};
        for (const { hangingGrams, takeHomeGrams = 0, parts = {} } of observations) {
          (columns.takeHome ??= []).push(takeHomeGrams / hangingGrams);
          for (const [part, grams] of Object.entries(parts))
            (columns[part] ??= []).push(grams / hangingGrams);
        }
        return Object.values(columns).map((shares) => [mean(shares), variance(shares)]);
      },
    },
    bar: { ms: 300, ratio: 3 },
  };
}

function animals(): YieldObservation[] {
  const { uniform, normal } = seededRandom(1);
  const codes = SPECIES.filter(({ family }) => family === 'deer').map(({ code }) => code);
  const share = (middle: number): number => Math.min(0.9, Math.max(0.005, middle + 0.03 * normal()));
  return Array.from({ length: ANIMALS }, (): YieldObservation => {
    const hangingGrams = 30_000 + 100_000 * uniform();
    const takeHome = share(0.58);
    const cuts = share(0.4) * takeHome;
    const loss = 1 - takeHome;
    const bone = share(0.5) * loss;
    const sinew = share(0.5) * (loss - bone);
    const damage = 0.3 * (loss - bone - sinew);
    return {
      hangingGrams,
      takeHomeGrams: takeHome * hangingGrams,
      parts: {
        wholeCuts: cuts * hangingGrams,
        trim: (takeHome - cuts) * hangingGrams,
        bone: bone * hangingGrams,
        sinew: sinew * hangingGrams,
        damage: damage * hangingGrams,
        shrink: (loss - bone - sinew - damage) * hangingGrams,
      },
      group: {
        species: codes[Math.floor(uniform() * codes.length)] ?? 'elk',
        brought: uniform() < 0.7 ? 'skinned' : 'whole',
        sex: uniform() < 0.5 ? 'male' : 'female',
        age: 'adult',
      },
    };
  });
}

function sourcesOf(count: number): BlendSource[] {
  const { uniform } = seededRandom(count);
  return Array.from({ length: count }, (_, i) =>
    i === 0
      ? { id: 'trim', fat: 0.04, availableGrams: 20_000, costPerKg: 0, useAll: true }
      : {
          id: `s${i}`,
          fat: 0.3 + 0.6 * uniform(),
          availableGrams: 2_000 + 8_000 * uniform(),
          costPerKg: 100 + 400 * uniform(),
        },
  );
}

/** The same question in the solver's own language: least cost, all of the trim, fat of the whole at its target. */
function programOf(sources: readonly BlendSource[]): string {
  const terms = (of: (source: BlendSource) => number): string =>
    sources.map((source, i) => `${of(source) < 0 ? '-' : '+'} ${Math.abs(of(source))} x${i}`).join(' ');
  return [
    'Minimize',
    ` obj: ${terms(({ costPerKg }) => costPerKg / 1000)}`,
    'Subject To',
    ` fat: ${terms(({ fat }) => fat - 0.15)} = 0`,
    'Bounds',
    ...sources.map(
      ({ availableGrams, useAll }, i) => ` ${useAll ? availableGrams : 0} <= x${i} <= ${availableGrams}`,
    ),
    'End',
  ].join('\n');
}

/** A carcass that divides and divides again: a quarter of the flows lead to a place that divides further. */
function flowsOf(count: number): { nodes: string[]; flows: Flow[] } {
  const places = Math.floor(count / 4);
  const nodes = Array.from({ length: places }, (_, i) => `n${i}`);
  const weighed = (i: number): { grams: number; sd: number } => ({
    grams: 1000 + ((i * 7919) % 500),
    sd: 30,
  });
  const inner = nodes.map((to, i): Flow => ({
    id: to,
    from: i === 0 ? null : `n${(i - 1) >> 1}`,
    to,
    ...weighed(i),
  }));
  const leaves = Array.from({ length: count - places }, (_, i): Flow => ({
    id: `leaf${i}`,
    from: `n${i % places}`,
    to: null,
    ...weighed(i),
  }));
  return { nodes, flows: [...inner, ...leaves] };
}

/** Weights of the readings bordered by the balances of the nodes, as a textbook would write it. */
function normalEquations(flows: readonly Flow[], nodes: readonly string[]): { left: Matrix; right: Matrix } {
  const size = flows.length + nodes.length;
  const left = Matrix.zeros(size, size);
  const right = Matrix.zeros(size, 1);
  flows.forEach(({ from, to, grams, sd = 1 }, i) => {
    left.set(i, i, 1 / sd ** 2);
    right.set(i, 0, (grams ?? 0) / sd ** 2);
    for (const [node, sign] of [
      [from, -1],
      [to, 1],
    ] as const) {
      // prettier-ignore
      const row = node === null ? -1 : nodes.indexOf(node);
      if (row < 0) continue;
      left.set(flows.length + row, i, sign);
      left.set(i, flows.length + row, sign);
    }
  });
  return { left, right };
}
