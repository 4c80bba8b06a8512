/** The procedure of a call, and what its kind means for others. */
import { procedures } from './procedures.ts';
import type { Placed } from './session/places.ts';
import type { AnyProcedure } from './session/procedure.ts';

type Listed = AnyProcedure & Placed;

/** No inherited member (`constructor`) is a call. */
export function procedureOf(name: string): Listed | undefined {
  return Object.hasOwn(procedures, name)
    ? (procedures[name as keyof typeof procedures] as unknown as Listed)
    : undefined;
}

/** Queries continue while the worker writes; calls that open another book wait as well. */
export function mayWrite(procedure: AnyProcedure): boolean {
  return procedure.kind === 'door' ? !procedure.quiet : procedure.kind !== 'read';
}

/** Whether the worker holds the book's write lock during this call. */
export function writesLong(procedure: AnyProcedure): boolean {
  return mayWrite(procedure) && !procedure.long?.onlyReads;
}

/** A door procedure operates on the file of the book, whichever it is, and refers to no record in it. */
export function isForOneBook(procedure: AnyProcedure): boolean {
  return procedure.kind !== 'door' && !procedure.anyOpening;
}
