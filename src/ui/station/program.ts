/** What runs behind a paired station's screens: its line to the desk, its outbox, its answers. */
import { compareOutbox } from '../../bridge/client/station/compare.ts';
import { followDesk, type OpenEntrance } from '../../bridge/client/station/follow.ts';
import { sendOutbox } from '../../bridge/client/station/outbox.ts';
import { DeskAway, ShutOut, stationRequests, type Shut } from '../../bridge/client/station/requests.ts';
import type {
  AnsweredLine,
  Answer,
  BookHas,
  StationEntrance,
  StationEvent,
  StationInfo,
} from '../../bridge/contract.ts';
import { HELD_HEADER } from '../../bridge/wire.ts';
import { openBridge } from '../link/bridge.ts';
import { useLanguage } from '../stores/language.ts';
import { useShop } from '../stores/shop.ts';
import { withAddresses } from './addresses.ts';
import { bridgeOfStation } from './desk-bridge.ts';
import { outboxStore } from './kept/entries.ts';
import { keepPairing, type Pairing } from './kept/pairing.ts';
import { forgetSeen } from './kept/seen.ts';
import { deleteOldPhotos } from './kept/photos.ts';
import { useLine } from './line.ts';
import { pageWaits } from './page-waits.ts';
import { sendPhotoOf } from './send-photo.ts';

/** The outbox is looked at this often besides, ms: the desk may have been busy, or another tab sent. */
const LOOK_EVERY = 15_000;
/** How often files of photographs that are long saved are deleted, ms. */
const TIDY_EVERY = 10 * 60_000;
/** One tab of a device sends at a time. */
const SENDER = 'gambrel-outbox';

/** Starts the program of a paired station; resolves once its screens can be drawn, with the desk or without it. */
export async function startStation(pairing: Pairing): Promise<void> {
  const line = useLine();
  const shop = useShop();
  let opening: string | null = null;
  /** What the desk was last told of the outbox. */
  let told = '';
  line.pairing = pairing;
  await Promise.all([line.load(), useLanguage().choose(pairing.station.language)]);
  void navigator.storage.persist();

  const waits = pageWaits();
  const requests = stationRequests({
    fetch: (input, init) => fetch(input, init),
    secret: () => line.pairing?.secret ?? null,
    addresses: () => line.pairing?.addresses ?? [],
    held: () => (told = line.held()),
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
      void compare();
    },
    { personEnded: () => (line.signedIn = null), lost: () => waits.hurry() },
  );

  async function entered(entrance: OpenEntrance): Promise<void> {
    await know(entrance);
    line.connection = { state: 'connected' };
    await shop.load();
    bridge.tell(null);
    await compare();
    void send();
  }

  async function know({
    station,
    lineage,
    signIn,
    now,
    addresses,
    ...entrance
  }: OpenEntrance): Promise<void> {
    // What was seen belongs to another book.
    if (line.pairing?.lineage !== lineage) await forgetSeen();
    opening = entrance.opening;
    await note({ lineage, signIn, aheadMs: Date.now() - Date.parse(now), shut: null });
    await knowStation(station, addresses);
  }

  async function knowStation(station: StationInfo, addresses: readonly string[]): Promise<void> {
    await note({ station, addresses: withAddresses(line.pairing?.addresses ?? [], addresses) });
    const language = useLanguage();
    const before = language.current;
    await language.choose(station.language);
    // The desk names built-in things, and says cautions, in the station's language.
    if (language.current !== before && line.connection.state === 'connected') await shop.load();
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
    if (why === 'removed') await Promise.all([forgetSeen(), deleteOldPhotos(line.entries, 0)]);
  }

  function heard(event: StationEvent): void {
    if (event.kind === 'changed') bridge.tell(event);
    else if (event.kind === 'shut') void shut(event.state);
    else if (event.kind === 'held') void compare();
    else void knowStation(event.station, event.addresses);
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

  /**
   * Holds the outbox against the book, and does what the shop decided of entries that the book does not have. Nothing is sent
   * meanwhile: what is answered just then would seem to be lacking.
   */
  async function compare(): Promise<void> {
    if (line.connection.state !== 'connected') return;
    try {
      const decision = await navigator.locks.request(SENDER, () => compareOutbox(outboxStore, bookHas));
      await line.load();
      if (decision !== null) await line.decide(decision);
      // What changed is told; then nothing changes any more.
      if (line.held() !== told) await compare();
    } catch (error) {
      await noAnswer(error);
    }
  }

  async function bookHas(lines: readonly AnsweredLine[]): Promise<BookHas> {
    const answer = await requests.post<Answer<BookHas>>('/outbox', { lines });
    if (!answer.ok) throw new DeskAway(answer.problem);
    return answer.value;
  }

  /** @throws Error of the store, which the page shows */
  async function noAnswer(error: unknown): Promise<void> {
    if (error instanceof ShutOut) await shut(error.state);
    else if (!(error instanceof DeskAway)) throw error;
    else if (error.problem) line.stuck = error.problem;
    else waits.hurry();
  }

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
          async (entry) => {
            await sendPhotoOf(entry, requests);
            return requests.post('/entry', entry, { [HELD_HEADER]: (told = line.held(1)) });
          },
          () => crypto.randomUUID(),
        ),
      );
      if (line.held() !== told) void compare();
    } catch (error) {
      await noAnswer(error);
    }
  }

  setInterval(() => void deleteOldPhotos(line.entries), TIDY_EVERY);
  line.follow({ requests, send: () => void send(), hurry: () => waits.hurry() });
  setInterval(() => {
    void send();
    if (line.ofOtherBook.length > 0) void compare();
  }, LOOK_EVERY);
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
