/** Cutting instructions to start from: the supplied ones and the shop's own. */
import suppliedJson from '../../resources/instructions.json' with { type: 'json' };
import { USUAL_INSTRUCTIONS } from './animal-page.ts';
import type { DeskRoom } from './room.ts';
import type { Instructions, TemplateCard } from './shapes.ts';

interface Supplied {
  name: string;
  carcass: string | null;
  instructions: Partial<Instructions>;
  source: string;
}
const SUPPLIED = suppliedJson as unknown as readonly Supplied[];

/** The shop's own first, then those that come with the program. */
export function templateCards(room: DeskRoom): TemplateCard[] {
  const own = room.book.templates.all().map(({ id, name, carcass, body }) => ({
    id,
    name,
    carcass,
    instructions: { ...USUAL_INSTRUCTIONS, ...(JSON.parse(body) as Instructions) },
  }));
  const supplied = SUPPLIED.map(({ name, carcass, instructions }) => ({
    id: null,
    name,
    carcass,
    instructions: { ...USUAL_INSTRUCTIONS, ...instructions },
  }));
  return [...own, ...supplied];
}
