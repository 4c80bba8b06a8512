/** The shop's side of its stations: who may ask, who is let in, and who is shut out. Only the shop's own window makes these calls. */
import { createHash, randomBytes } from 'node:crypto';
import * as v from 'valibot';
import type { StationNow } from '../../book/records/stations/stations.ts';
import { PLACES } from '../../trade/place.ts';
import { languages, type Language } from '../../words/languages.ts';
import type { StationInfo, StationRow, StationsView } from '../contract/contract.ts';
import { ProblemError } from '../contract/problem.ts';
import { by, id, needed, text } from '../input/input.ts';
import { host, read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { heldBy } from './held.ts';
import { lineStateOf } from './line-state.ts';
import { pairingOf } from './pairing.ts';
import { seen } from './presence.ts';
import { port, STATIONS, stationSettings } from './settings.ts';

/** More devices than a shop has places; each open one may hold a line. */
const MOST_STATIONS = 40;

const named = {
  name: needed(40),
  place: v.picklist(PLACES, 'choice.place'),
  language: v.picklist(Object.keys(languages) as Language[], 'choice.language'),
};
const request = needed(40);

export const get = read(v.object({}), stationsView);

/** Switches the lines to stations on or off. @throws ProblemError `station.address` */
export const setUp = write(
  v.object({
    on: v.boolean(),
    address: v.nullable(needed(60)),
    port: v.optional(port),
    pins: v.boolean(),
    phones: v.optional(v.boolean()),
    by,
  }),
  (session, { by: initials, ...input }) => {
    if (input.on && input.address === null)
      throw new ProblemError('invalid', 'station.address', { field: 'address' });
    const before = stationSettings(session.book);
    const after = {
      ...before,
      ...input,
      port: input.port ?? before.port,
      phones: input.phones ?? before.phones,
    };
    session.book.settings.put(STATIONS, after);
    session.book.audit.note({
      record: 'setting', recordId: STATIONS, act: 'change', before, after, at: session.now(), by: initials,
    }); // prettier-ignore
    if (!after.on) pairingOf(session).end();
    return after;
  },
);

/** Makes a code that one device may ask with. @throws ProblemError `pairing.off` */
export const newCode = host(v.object({}), (session) => {
  if (!stationSettings(session.book).on) throw new ProblemError('refused', 'pairing.off');
  pairingOf(session).newCode();
  return pairingOf(session).view();
});

/** Lets a device in whose number the owner compared. @throws ProblemError `pairing.over`, `station.name-taken`, `station.too-many` */
export const allow = write(v.object({ request, ...named, by }), (session, input) => {
  const asked = pairingOf(session).waiting(input.request);
  refuseName(session, input.name);
  if (present(session).length >= MOST_STATIONS)
    throw new ProblemError('refused', 'station.too-many', { with: { most: MOST_STATIONS } });
  const secret = randomBytes(32).toString('base64url');
  const { name, place, language } = input;
  const device = { secretHash: hashOf(secret), origin: asked.origin, agent: asked.agent };
  const stationId = session.book.stations.add(
    { ...device, at: session.now(), by: input.by },
    { name, place, language },
  );
  pairingOf(session).allow(input.request, { id: stationId, name, place, language }, secret);
  return { id: stationId };
});

/** @throws ProblemError `pairing.over` */
export const refuse = host(v.object({ request }), (session, input) => {
  pairingOf(session).waiting(input.request);
  pairingOf(session).refuse(input.request);
  return pairingOf(session).view();
});

/** Another name, place or language. @throws ProblemError `station.unknown`, `station.removed`, `station.name-taken` */
export const rename = write(v.object({ id, ...named, by }), (session, input) => {
  presentStation(session, input.id);
  refuseName(session, input.name, input.id);
  session.book.stations.rename({ ...input, at: session.now() });
  return { id: input.id };
});

const state = v.object({ id, reason: text(300), by });

function stateCall(to: 'open' | 'paused' | 'removed') {
  return write(state, (session, input) => {
    presentStation(session, input.id);
    session.book.stations.setState({ ...input, state: to, at: session.now() });
    return { id: input.id };
  });
}

/** Shut out until it is resumed: it keeps what it holds. @throws ProblemError `station.unknown`, `station.removed` */
export const pause = stateCall('paused');
/** @throws ProblemError `station.unknown`, `station.removed` */
export const resume = stateCall('open');
/** Shut out for good: what it did not send is lost. @throws ProblemError `station.unknown`, `station.removed` */
export const remove = stateCall('removed');

/** SHA-256 in hexadecimal digits. A secret has 256 random bits, so it needs no salt and no slow hash. */
export const hashOf = (secret: string): string => createHash('sha256').update(secret).digest('hex');

export const stationInfo = ({ id: stationId, name, place, language }: StationNow): StationInfo => ({
  id: stationId,
  name,
  place,
  language: language as Language,
});

export function stationsView(session: Session): StationsView {
  return {
    settings: stationSettings(session.book),
    line: lineStateOf(session),
    stations: session.book.stations.all().map((row): StationRow => ({
      ...stationInfo(row),
      state: row.state,
      origin: row.origin,
      agent: row.agent,
      addedAt: row.at,
      addedBy: row.by,
      entries: row.entries,
      ...seen(session, row.id),
      ...heldBy(session, row.id),
    })),
    ...pairingOf(session).view(),
    withPin: session.book.pins.who(),
  };
}

const present = (session: Session) => session.book.stations.all().filter((one) => one.state !== 'removed');

function presentStation(session: Session, stationId: number): StationNow {
  const found = session.book.stations.get(stationId);
  if (!found) throw new ProblemError('missing', 'station.unknown');
  if (found.state === 'removed') throw new ProblemError('refused', 'station.removed');
  return found;
}

/** Two stations of one name could not be told apart when one is lost. */
function refuseName(session: Session, name: string, except?: number): void {
  const taken = present(session).some(
    (one) => one.id !== except && one.name.toLowerCase() === name.toLowerCase(),
  );
  if (taken) throw new ProblemError('invalid', 'station.name-taken', { field: 'name', with: { name } });
}
