import type { Db } from './open.ts';

export interface OwnSpeciesRow {
  code: string;
  /** JSON in the shape of `resources/species.json`. */
  profile: string;
  active: 0 | 1;
}

/** Species of the shop's own, and supplied ones that the shop changed or put away. */
export function ownSpeciesRecords(db: Db) {
  const all = db.prepare<[], OwnSpeciesRow>(
    'SELECT code, profile, active FROM species_profile ORDER BY code',
  );
  const put = db.prepare(
    `INSERT INTO species_profile (code, profile, active) VALUES (@code, @profile, @active)
     ON CONFLICT (code) DO UPDATE SET profile = excluded.profile, active = excluded.active`,
  );
  return {
    all: () => all.all(),
    put: (code: string, profile: object, active: boolean): void =>
      void put.run({ code, profile: JSON.stringify(profile), active: active ? 1 : 0 }),
  };
}
