import type { Session } from '../session/session.ts';
import type { ImportKind } from '../contract/contract.ts';
import { animalImporter } from './animals.ts';
import { hunterImporter } from './hunters.ts';
import type { RowImporter } from './row-importer.ts';
import { weighingImporter } from './weighings.ts';

const importers: Readonly<Record<ImportKind, (session: Session) => RowImporter>> = {
  hunters: hunterImporter,
  animals: animalImporter,
  weighings: weighingImporter,
};

/** The importer of a kind of table. It has state, so each pass over a table needs its own. */
export function importerFor(kind: ImportKind, session: Session): RowImporter {
  return importers[kind](session);
}
