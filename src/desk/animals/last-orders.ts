import * as v from 'valibot';
import type { AnimalRow } from '../../book/records/animals.ts';
import { id, needed } from '../input/input.ts';
import { instructionsOf } from '../animal/instructions.ts';
import { hunterOf } from '../animal/hunters.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import type { Instructions } from '../contract/contract.ts';

interface LastOrders {
  ticket: string;
  receivedOn: string;
  speciesName: string;
  sameSpecies: boolean;
  instructions: Instructions;
}

/**
 * The hunter's previous instructions: from the newest animal of the species, else of a species of the same build,
 * else of any. Only primals that this species has are included.
 */
export const getLastOrders = read(
  v.object({ hunterId: id, species: needed(40) }),
  (session, input): LastOrders | null => {
    const wanted = session.species.of(input.species);
    const earlier = session.book.animals.instructedOf(hunterOf(session, input.hunterId).id);
    const bodyOf = ({ species }: AnimalRow) => session.species.of(species).body;
    const found =
      earlier.find(({ species }) => species === wanted.code) ??
      earlier.find((animal) => bodyOf(animal) === wanted.body) ??
      earlier[0];
    return found ? lastOf(session, found, wanted) : null;
  },
);

function lastOf(
  session: Session,
  animal: AnimalRow,
  wanted: { code: string; primals: readonly { code: string }[] },
): LastOrders {
  const instructions = instructionsOf(session, animal.id);
  const fits = instructions.primals.every(({ primal }) => wanted.primals.some(({ code }) => code === primal));
  return {
    ticket: animal.ticket,
    receivedOn: animal.received_on,
    speciesName: session.species.of(animal.species).name,
    sameSpecies: animal.species === wanted.code,
    instructions: fits ? instructions : { ...instructions, primals: [] },
  };
}
