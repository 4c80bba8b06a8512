/** How much hunters' phones may send: a phone's address costs nothing, so all of them together are counted too. */
const WINDOW_MS = 10 * 60_000;
/** In ten minutes; a few hunters may share an address. Our choice, no source. */
const MOST = { each: 8, all: 40 };

/** @returns whether an address may send once more, which counts */
export function phoneLimits(now: () => number = Date.now): (address: string) => boolean {
  let sent: { address: string; at: number }[] = [];
  return (address) => {
    sent = sent.filter(({ at }) => now() - at < WINDOW_MS);
    const own = sent.filter((one) => one.address === address).length;
    if (own >= MOST.each || sent.length >= MOST.all) return false;
    sent.push({ address, at: now() });
    return true;
  };
}
