/** Messages about canceling an intake, moving a weight, and received pieces. */
import { plural } from '../../plural.ts';
import type { Wording } from '../../wording.ts';

export const correctionWording: Readonly<Record<string, Wording>> = {
  'cancel.weighed': (p) =>
    `${p.ticket} has ${plural(Number(p.count), 'weight', 'weights')} of meat. Void or move ${Number(p.count) === 1 ? 'it' : 'them'} first, then cancel the intake.`,
  'cancel.billed': (p) =>
    `Bill ${p.number} stands for ${p.ticket}. Void the bill first, then cancel the intake.`,
  'cancel.paid': (p, format) =>
    `${format.money(Number(p.paidMinor), String(p.currency))} is paid on ${p.ticket}. Void the payment or refund it first, then cancel the intake.`,
  'cancel.positive': (p) =>
    `${p.ticket} tested positive, so its record stays. Record its disposal, or correct the result if it was entered wrongly.`,
  'move.in-batch': (p) =>
    `This weight is in batch ${p.batch}. Void it there, and weigh it in again for the right animal.`,
  'move.nowhere': (p) => `It already stands there on ${p.ticket}. Pick another ticket or another part.`,
  'edit.pieces-weighed': (p) =>
    `A ${String(p.primal)} of ${p.ticket} is weighed, so it came in. Count it too, or void that weight first.`,
};
