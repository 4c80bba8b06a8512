import type { SeasonLook } from '../../bridge/contract.ts';
import { seasonText as text } from '../texts/en-season.ts';
import type { Format } from '../texts/format.ts';
import { drawFat } from './fat-drawing.ts';
import type { ChartStory } from './story.ts';

type Batch = SeasonLook['batches'][number];

/** A batch within a point of its target is on it: a shop's scale and trim allow no finer. Common practice, no source. */
const ON_TARGET = 0.01;

/** More marks than this in one picture cannot be told apart. */
const MOST_DRAWN = 40;

/** Fat of each batch: what was wanted, what was planned, what was weighed in, what a test found. */
export function fatStory(look: SeasonLook, format: Format): ChartStory {
  const batches = look.batches;
  const telling = batches.filter(({ target, tested }) => target !== null || tested !== null);
  const drawn = telling.slice(-MOST_DRAWN);
  const share = (value: number | null) => (value === null ? '' : format.share(value));
  return {
    title: text.fatTitle,
    finding: fatFinding(look, format),
    n: text.nBatches(batches.length, batches.filter((batch) => batch.tested !== null).length),
    notes: [
      text.fatKey,
      ...(drawn.length < batches.length ? [text.drawn(drawn.length, batches.length)] : []),
    ],
    sources: [],
    table: {
      head: [text.batch, text.day, text.species, text.target, text.planned, text.weighedIn, text.tested],
      rows: batches.map((batch) => [
        batch.name,
        format.day(batch.at.slice(0, 10)),
        batch.species.join(', '),
        share(batch.target),
        share(batch.planned),
        share(batch.weighedIn),
        share(batch.tested),
      ]),
      links: batches.map((batch) => `/grinder/${batch.id}`),
      plain: batches.map((batch) => [
        batch.name,
        batch.at,
        batch.species.join(', '),
        batch.target,
        batch.planned,
        batch.weighedIn,
        batch.tested,
      ]),
    },
    fileName: `fat-${look.season}`,
    height: 420,
    draw: drawn.length === 0 ? null : (colours) => drawFat(drawn, colours),
    linkOf: (_, index) => (drawn[index] ? `/grinder/${drawn[index].id}` : null),
  };
}

/** How many batches met their target, and which way the tests lie. */
export function fatFinding(look: SeasonLook, format: Format): string {
  if (look.batches.length === 0) return text.noFat;
  return `${onTarget(look.batches)} ${testsAgainstWeighed(look.batches, format)}`;
}

function onTarget(batches: readonly Batch[]): string {
  const aimed = batches.filter((batch) => batch.target !== null && batch.weighedIn !== null);
  const met = aimed.filter(
    (batch) => Math.abs((batch.weighedIn ?? 0) - (batch.target ?? 0)) <= ON_TARGET + 1e-9,
  );
  return aimed.length === 0 ? text.noTargets(batches.length) : text.onTarget(met.length, aimed.length);
}

function testsAgainstWeighed(batches: readonly Batch[], format: Format): string {
  const gaps = batches.flatMap(({ tested, weighedIn }) =>
    tested === null || weighedIn === null ? [] : [tested - weighedIn],
  );
  if (gaps.length === 0) return text.noTests;
  const gap = gaps.reduce((total, one) => total + one, 0) / gaps.length;
  return text.testGap(gaps.length, format.number(Math.abs(gap) * 100, 1), gap < 0);
}
