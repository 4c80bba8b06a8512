/** What belongs to an animal besides its meat and where it goes otherwise than home, with a mark in every free text. */
import type { FreshDesk } from '../fresh-desk.ts';

/** Fills every text of these tables for animals of the hunter. They leave the shop again. */
export async function whatBelongs(shop: FreshDesk, hunterId: number, mark: string): Promise<void> {
  const taken = { species: 'elk', sex: 'male', age: 'adult', brought: 'skinned' } as const;
  const weights = [{ stage: 'hanging', typed: '400' }] as const;
  const takeIn = async () =>
    (await shop.call('intake.takeIn', { hunter: { id: hunterId }, ...taken, weights: [...weights] })).id;

  const mistaken = await takeIn();
  await shop.call('animals.cancel', { id: mistaken, reason: `${mark} twice` });
  await shop.call('animals.reopen', { id: mistaken, reason: `${mark} once` });
  await shop.call('unprocessed.add', { id: mistaken, reason: `${mark} moves` });
  await shop.call('unprocessed.void', { id: mistaken, reason: `${mark} stays` });
  await shop.call('animals.cancel', { id: mistaken, reason: `${mark} twice` });

  const id = await takeIn();
  const cape = { kind: 'cape', tag: `T-${mark}`, place: `${mark} shelf`, note: `${mark} salted` };
  const { id: belonging } = await shop.call('belongings.add', { animalId: id, ...cape });
  const end = {
    went: 'taxidermist',
    name: `${mark} Studio`,
    receipt: `R-${mark}`,
    note: `${mark} asked`,
  } as const;
  await shop.call('belongings.end', { id: belonging, ...end });
  await shop.call('belongings.voidEnd', { id: belonging, reason: `${mark} kept it` });
  await shop.call('belongings.void', { id: belonging, reason: `${mark} had none` });

  const pack = { stage: 'packed', part: 'package', product: `${mark} steaks`, count: 40 } as const;
  await shop.call('table.weigh', { animalId: id, ...pack, typed: '40' });
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  const other = await shop.call('hunters.save', { name: 'Cy Cedar' });
  const shares = [hunterId, other.id].map((one) => ({ hunter: { id: one }, typed: '1' }));
  await shop.call('shares.save', { animalId: id, basis: 'pieces', shares, reason: `${mark} shares` });
  await shop.call('shares.release', { id, hunterId, to: `${mark} Ridge`, unpaidBy: 'RO' });
  await shop.call('shares.voidRelease', { id, hunterId, reason: `${mark} forgot` });

  await shop.call('shop.saveSettings', {
    changes: { donationPrograms: [{ name: 'Hunters Share', paysMinor: 150, paysUnit: 'lb' }] },
  });
  const gift = { program: 'Hunters Share', confirmation: `C-${mark}`, note: `${mark} gives` };
  const part = await shop.call('donations.add', { id, ...gift, whole: false, typed: '5' });
  await shop.call('donations.void', { id: part.id, reason: `${mark} regrets` });
  const notice = { id, step: 'first', how: 'call', note: `${mark} was out` } as const;
  const { id: noticeId } = await shop.call('pickup.saveNotice', notice);
  await shop.call('pickup.voidNotice', { id: noticeId, reason: `${mark} was in` });
  await shop.call('donations.add', { id, ...gift, whole: true, typed: '40' });
}
