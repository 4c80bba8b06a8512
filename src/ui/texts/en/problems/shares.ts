/** Messages about shared animals. */
import type { Wording } from '../../wording.ts';

export const shareWording: Readonly<Record<string, Wording>> = {
  'share.unreadable': (p) =>
    p.typed
      ? `“${p.typed}” is no share. Type a number, for example 50 or 33.3.`
      : 'Type a share for each hunter.',
  'share.percent': (p) =>
    `The shares make ${p.percent}%, not 100%. Change one of them; for equal thirds choose pieces and type 1 for each.`,
  'share.owner': (p) =>
    `${p.ticket} stands in the name of ${p.name}, who must be one of the hunters. Add ${p.name}, or change the owner in “For the record”.`,
  'share.twice': (p) => `${p.name} is named twice. Add the two shares up.`,
  'share.taken': (p) =>
    `A part of ${p.ticket} is handed over already, so the shares stay. Void that pickup first.`,
  'share.too-many': (p) => `${p.ticket} was split ${p.count} times. It stays as it is.`,
  'share.not-sharer': (p) => `This hunter has no share of ${p.ticket}.`,
  'share.gone': (p, format) =>
    `The part of ${p.name} was picked up by ${p.to} on ${format.longDay(String(p.on))}.`,
  'share.not-gone': (p) => `No part of ${p.ticket} was handed over to this hunter.`,
  'payment.not-sharer': (p) => `This hunter has no share of ${p.ticket}. Pick one of its hunters.`,
  'list.needed': () => 'Name at least one.',
};
