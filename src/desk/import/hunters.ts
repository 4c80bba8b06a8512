/** Hunters, one a row. Who is in the book already stays as he or she is. */
import type { Session } from '../session/session.ts';
import type { Taker } from './taker.ts';
import { peopleOf, writeHunter } from './people.ts';

export function hunterTaker(session: Session): Taker {
  const people = peopleOf(session);
  return {
    check: () => undefined,
    look(values) {
      const { isNew } = people.of(values);
      return { hunters: isNew ? 1 : 0, animals: 0, weighings: 0, none: 0, known: isNew ? 0 : 1 };
    },
    write(values, writing) {
      const { known, isNew } = people.of(values);
      if (!isNew) {
        writing.count.known += 1;
        return;
      }
      known.id = writing.hunter(writeHunter(session, values, writing.at));
      writing.count.hunters += 1;
    },
  };
}
