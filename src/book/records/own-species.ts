import type { Db } from '../file/db.ts';

interface OwnSpeciesRow {
  code: string;
  /** JSON in the shape of `resources/species.json`; `null` for an unchanged supplied species that is archived. */
  profile: string;
  active: 0 | 1;
}

/** The shop's own species, and supplied ones that it changed or archived. */
export function ownSpeciesRecords(db: Db) {
  const all = db.prepare<[], OwnSpeciesRow>(
    'SELECT code, profile, active FROM species_profile ORDER BY code',
  );
  const put = db.prepare(
    `INSERT INTO species_profile (code, profile, active) VALUES (@code, @profile, @active)
     ON CONFLICT (code) DO UPDATE SET profile = excluded.profile, active = excluded.active`,
  );
  const primals = db
    .prepare<{ species: string }, string>(
      `SELECT w.primal FROM weighing w JOIN animal a ON a.id = w.animal_id
         WHERE a.species = @species AND w.primal IS NOT NULL
       UNION SELECT p.primal FROM animal_part p JOIN animal a ON a.id = p.animal_id WHERE a.species = @species
       UNION SELECT o.value ->> '$.primal' FROM instruction i JOIN animal a ON a.id = i.animal_id,
         json_each(i.body, '$.primals') o WHERE a.species = @species`,
    )
    .pluck();
  return {
    all: () => all.all(),
    put: (code: string, profile: object | null, active: boolean): void =>
      void put.run({ code, profile: JSON.stringify(profile), active: active ? 1 : 0 }),
    /** Codes of primals used in weights, received parts or orders of a species. */
    primalsUsed: (species: string): string[] => primals.all({ species }),
  };
}
