/** Texts for canceling an intake and moving a weight. */
export const cancelText = {
  cancel: 'Cancel intake',
  title: (ticket: string) => `Cancel the intake of ${ticket}`,
  hint: 'For an animal that was entered by mistake. Its record stays readable as canceled, and its ticket number is not used again.',
  why: 'Reason',
  keep: 'Keep intake',
  done: (ticket: string) => `The intake of ${ticket} is canceled.`,
  undone: 'undone',
  canceled: (day: string, by: string, reason: string) =>
    `Canceled on ${day}${by ? `, ${by}` : ''}: ${reason}`,
};

export const moveText = {
  move: 'Move',
  moveOf: (name: string, typed: string) => `Move ${name} ${typed}`,
  title: (weight: string) => `Move ${weight}`,
  hint: 'The typed weight and its time stay as they are. Both histories say where it went.',
  ticket: 'Ticket',
  ticketHint: 'The number on the tag of the right animal.',
  found: (hunter: string, species: string) => `${hunter}, ${species}`,
  notFound: (ticket: string) => `There is no ticket ${ticket} in the book. Check the number on the tag.`,
  part: 'Part',
  primal: 'Primal',
  weighed: 'Weighed as',
  reason: 'Reason',
  reasonHint: 'Optional. It stays in the history.',
  wrongAnimal: 'wrong animal',
  wrongPart: 'wrong part',
  undone: 'move undone',
  save: 'Move weight',
  cancel: 'Cancel',
  yes: 'Yes, move it',
  done: (weight: string, ticket: string) => `Moved ${weight} to ${ticket}.`,
  donePart: (weight: string) => `Moved ${weight}.`,
};
