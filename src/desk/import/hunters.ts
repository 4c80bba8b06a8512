/** Imports hunters, one per row. Known hunters do not change. */
import type { Session } from '../session/session.ts';
import type { RowImporter } from './row-importer.ts';
import { peopleOf, writeHunter } from './people.ts';

export function hunterImporter(session: Session): RowImporter {
  const people = peopleOf(session);
  return {
    check: () => undefined,
    count(values) {
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
