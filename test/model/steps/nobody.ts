import type { Animal } from '../state.ts';

/** An animal that is not in the book. */
export const NOBODY: Animal = {
  id: 9999, season: 2026, ticket: '26-9999', formerTickets: [], hunter: 9999, species: 'elk', brought: 'skinned', pieces: [], stage: 'hanging',
  detail: 'detailed', tag: '', receivedOn: '2026-10-10', enteredOn: '2026-10-10', killDate: null, promisedOn: null, releasedOn: null,
  disposedOn: null, stageBefore: 'hanging', holds: [], ordered: [], cooler: null, quote: null,
}; // prettier-ignore
