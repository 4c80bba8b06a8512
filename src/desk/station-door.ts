/** The desk as the listener for stations sees it. Loaded with the listener, once the shop switches stations on. */
import { actAs } from '../book/changes/acting.ts';
import type { Language } from '../words/languages.ts';
import type {
  AskingDevice,
  AskOutcome,
  OutboxEntry,
  StationCall,
  StationDoor,
  StationEntrance,
  StationLineState,
  StationSettings,
  Taken,
} from './contract/stations.ts';
import type { PhotoRead } from './contract/photo.ts';
import { WIRE } from './contract/stations.ts';
import { ProblemError, type Answer, type Problem } from './contract/problem.ts';
import { addByPhone } from './animals/check-in/drafts.ts';
import { draftSheet } from './animals/check-in/draft-sheet.ts';
import type { Desk } from './desk.ts';
import { answerSaid, inputMeant } from './names/at-the-door.ts';
import { carryOutEntry, needsPerson } from './station-entry.ts';
import { entryActor, openStation } from './session/actor.ts';
import { problemOf } from './session/problem-of.ts';
import type { Session } from './session/session.ts';
import { compareLines, heldBy, noteHeld } from './stations/held.ts';
import { readEntry, takeOnce, type Receipt } from './stations/outbox.ts';
import { noteLineState, originsOf } from './stations/line-state.ts';
import { pairingOf } from './stations/pairing.ts';
import { peopleOf } from './stations/people.ts';
import { lineageOf, stationSettings } from './stations/settings.ts';
import { hashOf, stationInfo } from './stations/stations.ts';
import { arrived, watch } from './station-following.ts';

const OFF: StationSettings = { on: false, address: null, port: 0, pins: false, phones: false };

/** Opens the door of a desk; it follows the desk from book to book. */
export function openStationDoor(desk: Desk): StationDoor {
  /** @throws ProblemError `station.unknown`, `station.paused`, `station.removed` */
  function stationOf(session: Session | null, secret: string) {
    if (!session) throw new ProblemError('missing', 'station.unknown');
    return { session, station: openStation(session.book.stations.ofSecret(hashOf(secret))) };
  }

  /** As the line last told. Another opening of the book has the same one. */
  let lineState: StationLineState | null = null;
  function noteLine(): void {
    const session = desk.session();
    if (session && lineState && noteLineState(session, lineState))
      desk.announce('stations.line', ['stations.get', 'stations.listNetworks']);
  }
  desk.onChanged(noteLine);

  const settings = () => {
    const session = desk.session();
    return session ? stationSettings(session.book) : OFF;
  };

  function enter(secret: string): StationEntrance {
    const session = desk.session();
    const found = session?.book.stations.ofSecret(hashOf(secret));
    if (!session || !found) return { state: 'unknown' };
    if (found.state !== 'open') return { state: found.state };
    pairingOf(session).cameIn(found.id);
    return {
      state: 'open',
      station: stationInfo(found),
      opening: session.opening,
      lineage: lineageOf(session.book),
      wires: [WIRE],
      addresses: originsOf(lineState),
      signIn: stationSettings(session.book).pins,
      now: session.now(),
    };
  }

  const openingNow = (): string | null => desk.session()?.opening ?? null;

  const failed = (error: unknown): { ok: false; problem: ReturnType<typeof problemOf> } => ({
    ok: false,
    problem: problemOf(error, desk.session()?.book.path ?? '', (broken) => desk.broken(broken)),
  });

  async function call(secret: string, asked: StationCall): Promise<Answer<unknown>> {
    try {
      const { session, station } = stationOf(desk.session(), secret);
      const signedIn = peopleOf(session).at(session, station.id, asked.person);
      // Nobody of the staff is at a hunter's own check-in.
      const signsIn = settings().pins && station.place !== 'hunter';
      if (signedIn === undefined && signsIn && needsPerson(asked.name))
        throw new ProblemError('refused', 'person.sign-in');
      const input = signedIn === undefined ? asked.input : signedBy(asked.input, signedIn);
      const person = signedIn ?? saidIn(input);
      const actor = { stationId: station.id, person, checked: signedIn !== undefined };
      const { place, language } = stationInfo(station);
      return await desk.callFrom({ place, actor }, asked.name, input, asked.opening, language);
    } catch (error) {
      return failed(error);
    }
  }

  async function take(secret: string, sent: unknown): Promise<Taken> {
    try {
      const entry = readEntry(sent);
      const { language } = stationInfo(stationOf(desk.session(), secret).station);
      const answer = await desk.write(entry.name, (session) => takeInto(session, secret, entry, language));
      if (!answer.ok) return notTaken(answer.problem);
      return answer.value.taken
        ? { ...answer.value, answer: said(entry, answer.value.answer, language) }
        : answer.value;
    } catch (error) {
      return notTaken(failed(error).problem);
    }
  }

  function takeInto(session: Session, secret: string, entry: OutboxEntry, language: Language): Taken {
    const { station } = stationOf(session, secret);
    const signedIn = peopleOf(session).at(session, station.id, entry.person);
    const who = { person: signedIn ?? entry.said ?? '', checked: signedIn !== undefined };
    const seed = { stationId: station.id, ...who, call: entry.name };
    const meant = inputMeant(entry.name, entry.input, language);
    const input = signedIn === undefined ? meant : signedBy(meant, signedIn);
    return actAs(entryActor(session, seed), () =>
      session.book.change(() =>
        takeOnce(session, station.id, entry, who, () =>
          carryOutEntry(session, station.place, seed, { input, makes: entry.makes }, (error) =>
            desk.broken(error),
          ),
        ),
      ),
    );
  }

  return {
    settings,
    phones: {
      sheet(language) {
        const session = desk.session();
        return session && stationSettings(session.book).phones ? draftSheet(session, language) : null;
      },
      give: (typed) =>
        desk.write('drafts.add', (session) => {
          if (!stationSettings(session.book).phones) throw new ProblemError('refused', 'draft.phones-off');
          return session.book.change(() => addByPhone(session, typed));
        }),
    },
    onSettings(told) {
      let known = JSON.stringify(settings());
      return desk.onChanged(() => {
        const now = settings();
        if (JSON.stringify(now) === known) return;
        known = JSON.stringify(now);
        told(now);
      });
    },
    lineIs(state) {
      lineState = state;
      noteLine();
    },
    origins() {
      const all = desk.session()?.book.stations.all() ?? [];
      return [...new Set(all.filter(({ state }) => state !== 'removed').map(({ origin }) => origin))];
    },
    ask(code, device) {
      const session = desk.session();
      if (!session || !stationSettings(session.book).on) throw new ProblemError('refused', 'pairing.off');
      try {
        return pairingOf(session).ask(code, bounded(device));
      } finally {
        desk.announce('stations.ask', ['stations.get']);
      }
    },
    outcome(request): AskOutcome {
      const session = desk.session();
      return session ? pairingOf(session).outcome(request) : { state: 'over' };
    },
    enter,
    async signIn(secret, initials, pin) {
      const { session, station } = stationOf(desk.session(), secret);
      return peopleOf(session).signIn(session, station.id, initials.trim().toUpperCase().slice(0, 6), pin);
    },
    signOut(secret, person) {
      const { session, station } = stationOf(desk.session(), secret);
      peopleOf(session).signOut(station.id, person);
    },
    holds(secret, held) {
      const session = desk.session();
      const found = session?.book.stations.ofSecret(hashOf(secret));
      if (session && found && noteHeld(session, found.id, held))
        desk.announce('stations.line', ['stations.get']);
    },
    compare(secret, lines) {
      const { session, station } = stationOf(desk.session(), secret);
      return compareLines(session, station.id, lines);
    },
    call,
    take,
    // A file is named by what it is, and refers to no row: it goes to whichever book is open.
    storePhoto: (secret, digest, file) =>
      call(secret, {
        name: 'photos.store',
        input: { digest, base64: base64Of(file) },
        opening: openingNow(),
      }),
    async photo(secret, digest) {
      const answer = await call(secret, { name: 'photos.read', input: { digest }, opening: openingNow() });
      const { base64 = '' } = answer.ok ? (answer.value as PhotoRead) : {};
      return base64 === '' ? null : Buffer.from(base64, 'base64');
    },
    watch(secret, told) {
      const left = arrived(desk, () => enter(secret));
      const stop = watch(
        desk,
        () => enter(secret),
        (stationId) => {
          const session = desk.session();
          return session && heldBy(session, stationId).decision;
        },
        (event) => {
          if (event.kind === 'shut') left();
          told(event);
        },
      );
      return () => {
        left();
        stop();
      };
    },
  };
}

const base64Of = (file: Uint8Array): string => Buffer.from(file).toString('base64');

const notTaken = (problem: Problem): Taken => ({ taken: false, expected: null, problem });

/** A receipt's answer with the names of a language; a kept one is in the desk's English. */
const said = ({ name }: OutboxEntry, answer: Receipt, language: Language): Receipt =>
  answer.ok ? answer : (answerSaid(name, answer, language) as Receipt);

/** The same input, written by whoever is signed in. */
function signedBy(input: unknown, by: string): unknown {
  return typeof input === 'object' && input !== null && !Array.isArray(input) ? { ...input, by } : input;
}

/** The initials that an input states. */
function saidIn(input: unknown): string {
  const by: unknown = typeof input === 'object' && input !== null && 'by' in input ? input.by : '';
  return typeof by === 'string' ? by.slice(0, 6) : '';
}

/** What a device says of itself is shown to the owner: cut short, on one line. */
function bounded({ agent, address, origin }: AskingDevice): AskingDevice {
  const cut = (text: string, most: number) => text.replace(/\p{C}/gu, ' ').trim().slice(0, most);
  return { agent: cut(agent, 200), address: cut(address, 60), origin: cut(origin, 200) };
}
