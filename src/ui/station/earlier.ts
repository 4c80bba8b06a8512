import { useShop } from '../stores/shop.ts';
import { typeMoment } from '../smokehouse/loads/oven-times.ts';
import { useLine } from './line.ts';

/**
 * When a reading was taken, for an entry that may arrive later; null while the desk is connected. It is the minute of the shop's
 * clock: this device's clock, less what it is ahead of the desk's. A log is worth nothing without its moments.
 */
export function earlier(): { on: string; time: string } | null {
  const line = useLine();
  if (line.connection.state === 'connected') return null;
  const now = new Date(Date.now() - (line.pairing?.aheadMs ?? 0));
  const [on = '', time = ''] = typeMoment(now.toISOString(), useShop().zone).split('T');
  return { on, time };
}
