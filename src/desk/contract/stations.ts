/** Stations: other devices of the shop on its own network. What the desk tells of them, and what their listener asks of it. */
import type { Place } from '../../trade/place.ts';
import type { HunterLanguage } from '../../words/hunter-language.ts';
import type { Language } from '../../words/languages.ts';
import type { DraftSheet } from './check-in/draft.ts';
import type { Answer, Problem } from './problem.ts';

/** What a station knows of itself. */
export interface StationInfo {
  id: number;
  name: string;
  place: Place;
  language: Language;
}

/** `removed` is final; a device that the book does not know (another book is open) keeps what it holds. */
export type StationState = 'open' | 'paused' | 'removed';

export interface StationRow extends StationInfo {
  state: StationState;
  /** The origin at which the device was paired, `https://192.168.1.5:47115`. */
  origin: string;
  agent: string;
  addedAt: string;
  addedBy: string;
  /** Entries taken of this station. */
  entries: number;
  /** It holds a line to the desk now. */
  connected: boolean;
  /** When its last line ended; null while connected, and if it had none since the book was opened. */
  lastSeen: string | null;
  /** What it last told of its outbox; null if it told nothing since the book was opened. */
  held: HeldEntries | null;
  /** What the shop decided of entries of another book, until the station has done it. */
  decision: HeldDecision | null;
}

/** What the outbox of a station holds that is not in the book, as numbers of entries. */
export interface HeldEntries {
  /** To be sent. */
  waiting: number;
  /** Doubted or refused by the desk, and answered by nobody. */
  unanswered: number;
  /** Of `waiting`: made in a book that this one does not continue, such as before a backup was restored. */
  ofOtherBook: number;
  /** Left out of this book by the shop's decision, and still on the device. */
  left: number;
}

/** Whether entries of another book come into this one. */
export type HeldDecision = 'take' | 'leave';

/** A line of a station's outbox and the last number of it that was answered. */
export interface AnsweredLine {
  line: string;
  last: number;
}

/** What the book has of such lines. */
export interface BookHas {
  lines: {
    line: string;
    /** The last number that stands in the book. */
    has: number;
    /** The last number that stands in a verified backup of it, as far as this run of the desk made one. */
    backedUp: number;
  }[];
  decision: HeldDecision | null;
}

/** A network of this computer that stations may be on. */
export interface Network {
  /** As the system names it, such as `eth0` or `Wi-Fi`. */
  name: string;
  address: string;
  /** Nothing but this computer is on it. */
  onlyHere: boolean;
}

/** A device that asks to become a station. The owner compares `number` with the device's screen. */
export interface StationRequest {
  request: string;
  number: string;
  agent: string;
  address: string;
  askedAt: string;
}

/** Where the shop's stations may reach the desk. Off until the shop switches it on. */
export interface StationSettings {
  on: boolean;
  /** The address of the network interface that the shop chose; null: none yet. */
  address: string | null;
  /** The fixed port: part of every station's origin. */
  port: number;
  /** Whether staff sign in with a PIN at the floor. */
  pins: boolean;
  /** Whether hunters may check in on their own phones, over plain HTTP. */
  phones: boolean;
}

/** Whether devices can reach the desk. */
export type StationLineState =
  | { state: 'off' }
  | {
      state: 'open';
      /** Name, addresses and port: `http://ADDRESS:PORT/` explains how to trust the shop, `https://` is the window. */
      host: string;
      addresses: readonly string[];
      port: number;
      /** Of the shop's root, to be compared with what a device shows. */
      fingerprints: { sha256: string; sha1: string };
      /** The root was made with this line: no device trusts it yet. */
      isNew: boolean;
    }
  | { state: 'failed'; problem: Problem };

export interface StationsView {
  settings: StationSettings;
  line: StationLineState;
  stations: StationRow[];
  requests: StationRequest[];
  /** The code that devices may ask with; null when none was made, or it is used, over or locked. */
  code: { code: string; until: string; leftMs: number } | null;
  /** Ten wrong codes: nobody can ask until the shop makes another code. */
  locked: boolean;
  /** Staff who have a PIN, by initials. */
  withPin: string[];
}

/** What a device sends to ask for a place. */
export interface AskingDevice {
  agent: string;
  address: string;
  origin: string;
}

export type AskOutcome =
  | { state: 'waiting' }
  | { state: 'refused' }
  /** The request is unknown, or older than its code. */
  | { state: 'over' }
  /** The secret is told once: asked again, the request is over. */
  | { state: 'allowed'; station: StationInfo; secret: string };

/** What a station's secret opens. */
export type StationEntrance =
  | {
      state: 'open';
      station: StationInfo;
      /** The opening of the book, which each call states. */
      opening: string;
      /** The book and its restorings: entries made in another are not taken. Differs after a backup was restored. */
      lineage: string;
      /** Versions of entries that the desk takes, newest first. */
      wires: readonly number[];
      /** Origins at which the desk is reached now, by name and by address. */
      addresses: readonly string[];
      /** Whether people sign in here. */
      signIn: boolean;
      /** The desk's moment, against which a station measures its clock. */
      now: string;
    }
  | { state: 'paused' | 'removed' | 'unknown' };

/** A call of a station, while its line is up. */
export interface StationCall {
  name: string;
  input: unknown;
  /** The opening of the book that the call is meant for; null before the station knows one. */
  opening: string | null;
  /** Of `signIn`. */
  person?: string | undefined;
}

/** The newest version of an entry's shape. Older ones stay readable: what was typed before an update is sent after it. */
export const WIRE = 1;

/** One entry of a station's outbox. All texts are bounded; anything else in it is refused. */
export interface OutboxEntry {
  wire: number;
  /** A UUID of the station's store: a wiped device begins another line. */
  line: string;
  /** 1, 2, 3 … of the line, without a gap. */
  number: number;
  /** A UUID of this entry. */
  id: string;
  /** `lineage` of the entrance under which it was made. */
  lineage: string;
  name: string;
  input: unknown;
  /** The station's moment when it was typed, and how far its clock was ahead of the desk's at the last handshake, ms. */
  at: string;
  aheadMs: number;
  /** Who typed it: of `signIn` while that lasts, else the initials that were said. */
  person?: string | undefined;
  said?: string | undefined;
  /** The station's own name, a UUID, for what it makes: later entries may say `{ made }` where an id stands. */
  makes?: string | undefined;
}

/** In place of an id: what an earlier entry of the station makes. */
export interface Made {
  made: string;
}

/** What became of an entry. */
export type Taken =
  /** It stands under its number, with this answer, for good. An answer of a write is reduced to whole numbers (`id`, `batchId`). */
  | { taken: true; number: number; repeated: boolean; answer: Answer<Record<string, number>> }
  /**
   * It does not stand in the book. `expected` is the number that the line goes on with; null: it is none of the line's
   * order (paused, not readable, disk full), and the station keeps the entry and asks again.
   */
  | {
      taken: false;
      expected: number | null;
      problem: NonNullable<Extract<Answer<never>, { ok: false }>['problem']>;
    };

/** What a listening station is told. */
export type StationEvent =
  /** Queries to repeat, of those that its place may make; null for all. */
  | {
      kind: 'changed';
      stale: { asks: string[]; ofAnimals: { asks: string[]; ids: number[] } } | null;
      opening: string | null;
    }
  /** Renamed, another place or language, or the desk is reached at other origins. */
  | { kind: 'station'; station: StationInfo; addresses: readonly string[] }
  /** The shop decided of the entries of another book. */
  | { kind: 'held' }
  /** The end of the line: the carrier closes every socket of the station. */
  | { kind: 'shut'; state: 'paused' | 'removed' | 'unknown' };

/** What a hunter's own phone may do. */
export interface PhoneDoor {
  /** Null while the shop does not let phones check in. */
  sheet(language: HunterLanguage): DraftSheet | null;
  /** Keeps what a phone sent as a draft. Never rejects. */
  give(typed: unknown): Promise<Answer<{ id: number }>>;
}

/** The desk as the listener for stations sees it (`openStationDoor`, src/desk/station-door.ts). */
export interface StationDoor {
  settings(): StationSettings;
  phones: PhoneDoor;
  /** Tells when the settings may have changed, until stopped: another address, switched off, another book. */
  onSettings(told: (settings: StationSettings) => void): () => void;
  /** The line tells how it is, each time it looks. */
  lineIs(state: StationLineState): void;
  /** Origins at which stations were paired and not removed: they may send to any address of the desk. */
  origins(): string[];
  /**
   * A device asks to become a station with the code that the shop shows. Both screens show `number`.
   * @throws ProblemError `pairing.wrong-code`, `pairing.locked`, `pairing.off`, `book.…`
   */
  ask(code: string, device: AskingDevice): { request: string; number: string };
  outcome(request: string): AskOutcome;
  /** The station of a bearer secret. */
  enter(secret: string): StationEntrance;
  /** @throws ProblemError `person.wrong-pin` (`with.left`), `person.wait` (`with.seconds`), `station.…` */
  signIn(
    secret: string,
    initials: string,
    pin: string,
  ): Promise<{ person: string; initials: string; idleMs: number }>;
  signOut(secret: string, person: string): void;
  /** A station, paused ones too, tells what its outbox holds. */
  holds(secret: string, held: HeldEntries): void;
  /** What the book has of these lines. @throws ProblemError `station.…` */
  compare(secret: string, lines: readonly AnsweredLine[]): BookHas;
  /** One call: refused unless its place may make it. Never rejects. Checked again inside each write's transaction. */
  call(secret: string, call: StationCall): Promise<Answer<unknown>>;
  /** One entry of an outbox: exactly once, in the order of its line. Never rejects. */
  take(secret: string, entry: unknown): Promise<Taken>;
  /** Stores the file of a photograph, which its entry names then. Never rejects; a refusal is that of `photos.store`. */
  storePhoto(secret: string, digest: string, file: Uint8Array): Promise<Answer<unknown>>;
  /** The file of a photograph that this place may see; else null. */
  photo(secret: string, digest: string): Promise<Uint8Array | null>;
  /** Tells what became stale, and that the station is shut out, until stopped. A secret that opens nothing is told so at once. */
  watch(secret: string, told: (event: StationEvent) => void): () => void;
}
