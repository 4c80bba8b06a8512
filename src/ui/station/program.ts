/** What runs behind a paired station's screens: its line to the desk, its outbox, its answers. */
import { followDesk, type OpenEntrance } from '../../bridge/client/station/follow.ts';
import { sendOutbox } from '../../bridge/client/station/outbox.ts';
import { DeskAway, ShutOut, stationRequests, type Shut } from '../../bridge/client/station/requests.ts';
import type { Answer, StationEntrance, StationEvent } from '../../bridge/contract.ts';
import { openBridge } from '../link/bridge.ts';
import { useLanguage } from '../stores/language.ts';
import { useShop } from '../stores/shop.ts';
import { bridgeOfStation } from './desk-bridge.ts';
import { outboxStore } from './kept/entries.ts';
import { keepPairing, type Pairing } from './kept/pairing.ts';
import { forgetSeen } from './kept/seen.ts';
import { useLine } from './line.ts';
import { pageWaits } from './page-waits.ts';

/** The outbox is looked at this often besides, ms: the desk may have been busy, or another tab sent. */
const LOOK_EVERY = 15_000;
/** One tab of a device sends at a time. */
const SENDER = 'gambrel-outbox';

/** Starts the program of a paired station; resolves once its screens can be drawn, with the desk or without it. */
export async function startStation(pairing: Pairing): Promise<void> {
  const line = useLine();
  const shop = useShop();
  let opening: string | null = null;
  line.pairing = pairing;
  await Promise.all([line.load(), useLanguage().choose(pairing.station.language)]);
  void navigator.storage.persist();
  void line.tidy();

  const waits = pageWaits();
  const requests = stationRequests({
    fetch: (input, init) => fetch(input, init),
    secret: () => line.pairing?.secret ?? null,
    addresses: () => line.pairing?.addresses ?? [],
  });
  const bridge = bridgeOfStation(
    requests,
    () => ({
      isConnected: line.connection.state === 'connected',
      opening,
      lineage: line.pairing?.lineage ?? null,
      person: line.signedIn?.token ?? null,
    }),
    async () => {
      const answer = await requests.post<Answer<StationEntrance>>('/station', {});
      if (answer.ok && answer.value.state === 'open') await know(answer.value);
    },
    { personEnded: () => (line.signedIn = null), lost: () => waits.hurry() },
  );

  async function entered(entrance: OpenEntrance): Promise<void> {
    await know(entrance);
    line.connection = { state: 'connected' };
    await shop.load();
    bridge.tell(null);
    void send();
  }

  async function know({ station, lineage, signIn, now, ...entrance }: OpenEntrance): Promise<void> {
    // What was seen belongs to another book.
    if (line.pairing?.lineage !== lineage) await forgetSeen();
    opening = entrance.opening;
    await note({ station, lineage, signIn, aheadMs: Date.now() - Date.parse(now), shut: null });
    await useLanguage().choose(station.language);
  }

  async function note(more: Partial<Pairing>): Promise<void> {
    if (!line.pairing) return;
    line.pairing = { ...line.pairing, ...more };
    await keepPairing(line.pairing);
  }

  function away(): void {
    const { connection } = line;
    if (connection.state === 'away') return;
    line.connection = { state: 'away', since: Date.now() };
  }

  async function shut(why: Shut): Promise<void> {
    line.connection = { state: 'shut', why };
    line.signedIn = null;
    await note({ shut: why, ...(why === 'removed' && { secret: null }) });
    // A removed station shows nothing of the shop any more but what it did not send.
    if (why === 'removed') await forgetSeen();
  }

  function heard(event: StationEvent): void {
    if (event.kind === 'changed') bridge.tell(event);
    else if (event.kind === 'shut') void shut(event.state);
    else void note({ station: event.station }).then(() => useLanguage().choose(event.station.language));
  }

  let isSending = false;
  let sendsAgain = false;
  async function send(): Promise<void> {
    if (isSending) {
      sendsAgain = true;
      return;
    }
    isSending = true;
    try {
      do {
        sendsAgain = false;
        if (line.connection.state === 'connected' && line.waiting.length > 0) await sendOnce();
      } while (sendsAgain);
    } finally {
      isSending = false;
    }
  }

  /** @throws Error of the store, which the page shows */
  async function sendOnce(): Promise<void> {
    try {
      line.stuck = await navigator.locks.request(SENDER, () =>
        sendOutbox(
          {
            ...outboxStore,
            async settle(entries, place) {
              await outboxStore.settle(entries, place);
              line.note(entries);
            },
          },
          (entry) => requests.post('/entry', entry),
          () => crypto.randomUUID(),
        ),
      );
    } catch (error) {
      if (error instanceof ShutOut) await shut(error.state);
      else if (!(error instanceof DeskAway)) throw error;
      else if (error.problem) line.stuck = error.problem;
      else waits.hurry();
    }
  }

  line.follow({ requests, send: () => void send(), hurry: () => waits.hurry() });
  setInterval(() => void send(), LOOK_EVERY);
  await openBridge(Promise.resolve(bridge));
  await shop.start();
  if (pairing.secret === null) await shut('removed');
  else
    void followDesk(
      { requests, ...waits },
      { entered, away, shut: (why) => void shut(why), heard },
      new AbortController().signal,
    );
}
