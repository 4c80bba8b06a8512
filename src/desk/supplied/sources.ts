/** The publications behind the figures, and how they are cited. */
import sourcesJson from '../../../resources/sources.json' with { type: 'json' };
import type { Sourced } from '../../core/species/species.ts';
import type { SourceNote } from '../contract/contract.ts';

/** A publication behind figures in `resources/`. */
interface Publication {
  readonly code: string;
  readonly kind: 'journal' | 'thesis' | 'proceedings' | 'institute' | 'agency' | 'extension';
  readonly cite: string;
  readonly address: string;
  /** The day on which it was read, `YYYY-MM-DD`. */
  readonly read: string;
  /** The part that was read: `method` is everything but its tables, `reprint` its text as reprinted elsewhere. */
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
 * The origin of a figure, then each cited publication with its address and the part that was read. An unknown code
 * is omitted: a book may have a species from a later program.
 */
export function sourceNote({ grade, source, cites }: Sourced): SourceNote {
  const named = cites.flatMap((code) => {
    const found = byCode.get(code);
    return found ? [`${found.cite}, ${found.address}${READ[found.seen]}`] : [];
  });
  const sentence = source.charAt(0).toUpperCase() + source.slice(1);
  return { grade, source: [sentence, ...named].join('. ') };
}
