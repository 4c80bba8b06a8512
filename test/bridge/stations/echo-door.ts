/** A desk for tests of the line: its stations, codes and answers are set by the test. */
import { ProblemError, type Answer } from '../../../src/desk/contract/problem.ts';
import type { DraftSheet, Instructions } from '../../../src/desk/contract/contract.ts';
import type {
  AskingDevice,
  HeldEntries,
  OutboxEntry,
  StationCall,
  StationDoor,
  StationEntrance,
  StationEvent,
  StationInfo,
  StationLineState,
  StationSettings,
} from '../../../src/desk/contract/stations.ts';

export interface EchoDoor extends StationDoor {
  asked: AskingDevice[];
  calls: StationCall[];
  entries: OutboxEntry[];
  /** What stations told of their outboxes. */
  held: HeldEntries[];
  photos: Map<string, Uint8Array>;
  /** What phones gave, and what they are refused for. */
  drafts: unknown[];
  refuses?: Answer<never>;
  registered: string[];
  /** How the line was, one after another. */
  states: StationLineState[];
  /** Tells the lines of a secret. */
  tell(secret: string, event: StationEvent): void;
  /** Shuts a station out. */
  remove(secret: string): void;
  watchers(): number;
  /** Changes the shop's settings. */
  set(more: Partial<StationSettings>): void;
}

export const TABLE: StationInfo = { id: 1, name: 'Table 2', place: 'table', language: 'en-US' };
export const CODE = 'BCDFGHJK';
/** The secret of the one station that is paired from the start. */
export const SECRET = 'secret-of-table-2';

const ORDERS = {
  cutsShare: 0.4, primals: [], fat: 'none', targetFat: null, grindProduct: 'Ground', pattyGrams: null, alsoGround: [],
  packageGrams: 450, pricedExtras: {}, extras: [], note: '',
} as const; // prettier-ignore
const WAY = { fits: ['elk'], instructions: ORDERS as unknown as Instructions, made: ['Ground'], charges: [] };

/** What a hunter chooses from, with a name that would be a script. */
export const SHEET: DraftSheet = {
  shopName: 'Oak <b>Ridge</b>', today: '2026-11-24', unit: 'lb', terms: 'Pick up soon.', termsLanguage: 'en-US',
  species: [{ code: 'elk', title: 'Elk', male: 'bull', female: 'cow', body: 'cervid', primals: [] }],
  usual: { title: '', ...WAY }, ways: [{ title: 'Links', ...WAY, charges: ['links'] }], fats: [],
  prices: {
    currency: 'USD',
    lines: [
      { code: 'cut', title: 'Cutting', basis: 'animal', amountMinor: 9500, rate: null, unit: null, species: null, brought: null, fat: null, least: null },
      { code: 'links', title: 'Links', basis: 'product', amountMinor: 350, rate: null, unit: 'lb', species: null, brought: null, fat: null, least: null },
    ],
  },
}; // prettier-ignore

export function echoDoor(): EchoDoor {
  const removed = new Set<string>();
  const watching = new Map<string, Set<(event: StationEvent) => void>>();
  const followers = new Set<(settings: StationSettings) => void>();
  let settings: StationSettings = { on: false, address: null, port: 0, pins: false, phones: false };
  let codeIsUsed = false;
  const door: EchoDoor = {
    asked: [],
    calls: [],
    entries: [],
    held: [],
    photos: new Map(),
    registered: [],
    states: [],
    settings: () => settings,
    drafts: [],
    phones: {
      sheet: () => (settings.phones ? SHEET : null),
      async give(typed) {
        door.drafts.push(typed);
        return door.refuses ?? { ok: true, value: { id: door.drafts.length } };
      },
    },
    onSettings(told) {
      followers.add(told);
      return () => followers.delete(told);
    },
    lineIs(state) {
      if (JSON.stringify(state) !== JSON.stringify(door.states.at(-1))) door.states.push(state);
    },
    set(more) {
      settings = { ...settings, ...more };
      followers.forEach((told) => told(settings));
    },
    origins: () => door.registered,
    ask(code, device) {
      if (code !== CODE || codeIsUsed) throw new ProblemError('refused', 'pairing.wrong-code');
      codeIsUsed = true;
      door.asked.push(device);
      return { request: 'r-1', number: '47' };
    },
    outcome: (request) =>
      request === 'r-1' ? { state: 'allowed', station: TABLE, secret: SECRET } : { state: 'over' },
    enter(secret): StationEntrance {
      if (removed.has(secret)) return { state: 'removed' };
      if (secret !== SECRET) return { state: 'unknown' };
      return {
        state: 'open',
        station: TABLE,
        opening: 'o-1',
        lineage: 'l-1',
        wires: [1],
        addresses: [],
        signIn: false,
        now: '',
      };
    },
    async signIn(_secret, initials, pin) {
      if (pin !== '4711') throw new ProblemError('refused', 'person.wrong-pin', { with: { left: 4 } });
      return { person: 'p-1', initials, idleMs: 60_000 };
    },
    signOut: () => undefined,
    holds: (_secret, held) => void door.held.push(held),
    compare: (_secret, lines) => ({
      lines: lines.map(({ line, last }) => ({ line, has: last, backedUp: 0 })),
      decision: null,
    }),
    async call(_secret, call) {
      door.calls.push(call);
      if (call.name === 'desk.throws') throw new Error('secret detail');
      if (call.name === 'desk.waits') await new Promise(() => undefined);
      return { ok: true, value: { name: call.name, input: call.input } };
    },
    async take(_secret, entry) {
      door.entries.push(entry as OutboxEntry);
      return {
        taken: true,
        number: (entry as OutboxEntry).number,
        repeated: false,
        answer: { ok: true, value: {} },
      };
    },
    async storePhoto(_secret, digest, file) {
      door.photos.set(digest, file);
      return { ok: true, value: { digest } };
    },
    photo: async (_secret, digest) => door.photos.get(digest) ?? null,
    watch(secret, told) {
      const those = watching.get(secret) ?? new Set();
      watching.set(secret, those.add(told));
      return () => those.delete(told);
    },
    tell(secret, event) {
      const those = [...(watching.get(secret) ?? [])];
      // As the desk does: whoever was shut out hears nothing more.
      if (event.kind === 'shut') watching.get(secret)?.clear();
      for (const told of those) told(event);
    },
    remove(secret) {
      removed.add(secret);
      door.tell(secret, { kind: 'shut', state: 'removed' });
    },
    watchers: () => [...watching.values()].reduce((sum, those) => sum + those.size, 0),
  };
  return door;
}
