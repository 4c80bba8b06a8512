/** Which stations may make a call. The table of calls (`procedures.ts`) gives each its places. */
import type { Place } from '../../trade/place.ts';

export interface Placed {
  /** Stations whose place may make the call. The shop's own window may make every one. */
  places: readonly Place[];
  /**
   * Blanks what no floor place is to see: prices, and a hunter's phone, email, address and license. The answer keeps
   * its shape. Absent where the answer has nothing of the kind.
   */
  forFloor?: (answer: never) => unknown;
}

type Runs = { run: (...input: never) => unknown };
type AnswerOf<P extends Runs> = Awaited<ReturnType<P['run']>>;

/** Only the shop's own window: it opens another book, or says which stations there are. */
export function deskOnly<P extends Runs>(procedure: P): P & Placed {
  return { ...procedure, places: [] };
}

/** Of the floor's places only the office. */
export function office<P extends Runs>(procedure: P): P & Placed {
  return { ...procedure, places: ['office'] };
}

/**
 * The office, and the named places of the floor.
 * @param forFloor makes the answer for all but the office
 */
export function floor<P extends Runs>(
  places: readonly Exclude<Place, 'office'>[],
  procedure: P,
  forFloor?: (answer: AnswerOf<P>) => AnswerOf<P>,
): P & Placed {
  return { ...procedure, places: ['office', ...places], ...(forFloor && { forFloor }) };
}
