/** Parses a typed list of ticket numbers. */

interface Ticketed {
  id: number;
  ticket: string;
}

/**
 * The animals of the tickets, and the text that matches none. A running number alone is enough; if two seasons have
 * it, the newer one is meant.
 * @example ticketsIn('155, 26-0160', hooks) // { ids: [155, 160], unknown: [] }
 */
export function ticketsIn(typed: string, hooks: readonly Ticketed[]): { ids: number[]; unknown: string[] } {
  const newest = [...hooks].sort((a, b) => b.ticket.localeCompare(a.ticket));
  const ids = new Set<number>();
  const unknown: string[] = [];
  for (const word of typed.split(/[\s,;]+/).filter(Boolean)) {
    const found = newest.find(
      ({ ticket }) => ticket === word || (/^\d+$/.test(word) && numberOf(ticket) === Number(word)),
    );
    if (found) ids.add(found.id);
    else unknown.push(word);
  }
  return { ids: [...ids], unknown };
}

/** The inverse: ticket numbers as they are typed, `155 156`. */
export function typedTickets(hooks: readonly Ticketed[]): string {
  return hooks.map(({ ticket }) => String(numberOf(ticket))).join(' ');
}

function numberOf(ticket: string): number {
  return Number(ticket.split('-').at(-1));
}
