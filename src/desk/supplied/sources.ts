/** Who published what the figures rest on, and how that is said. */
import sourcesJson from '../../../resources/sources.json' with { type: 'json' };
import type { Sourced } from '../../core/species/species.ts';
import type { SourceNote } from '../contract/contract.ts';

/** A publication that figures in `resources/` rest on. */
interface Publication {
  readonly code: string;
  readonly kind: 'journal' | 'thesis' | 'proceedings' | 'institute' | 'agency' | 'extension';
  readonly cite: string;
  readonly address: string;
  /** The day on which it was read, `YYYY-MM-DD`. */
  readonly read: string;
  /** What of it was read: `method` is all but its tables, `reprint` its words as somebody else printed them. */
  readonly seen: 'text' | 'abstract' | 'data' | 'method' | 'reprint';
}

export const PUBLICATIONS = sourcesJson as readonly Publication[];

const byCode = new Map(PUBLICATIONS.map((one) => [one.code, one]));

const READ: Readonly<Record<Publication['seen'], string>> = {
  text: '',
  abstract: ', abstract read',
  data: ', data file read',
  method: ', method read, figures as others report them',
  reprint: ', as reprinted elsewhere',
};

/**
 * How a figure was arrived at, then each publication that it rests on with its address and what of it was read.
 * A code that is not in the list is left out: a book may hold a species of a later program.
 */
export function sourceNote({ grade, source, cites }: Sourced): SourceNote {
  const named = cites.flatMap((code) => {
    const found = byCode.get(code);
    return found ? [`${found.cite}, ${found.address}${READ[found.seen]}`] : [];
  });
  const said = source.charAt(0).toUpperCase() + source.slice(1);
  return { grade, source: [said, ...named].join('. ') };
}
