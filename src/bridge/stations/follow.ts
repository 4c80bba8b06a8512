/**
 * Opens and closes the line for stations as the shop switches it. Until it is switched on, nothing listens and nothing
 * that the line needs is loaded.
 */
import { ProblemError } from '../../desk/contract/problem.ts';
import type { StationDoor, StationLineState, StationSettings } from '../../desk/contract/stations.ts';
import type { Fingerprints } from '../authority/fingerprint.ts';
import { namesAt } from './interfaces.ts';
import type { StationLine } from './line.ts';

/** Interval at which a line looks for another address and for a leaf that is due, ms. */
const LOOK_EVERY = 10_000;

export interface LineHome {
  door: StationDoor;
  /** The book whose stations these are, and the shop's name; null while no book is open. */
  book(): { path: string; shop: string } | null;
  /** Folder of the built window. */
  windowFolder: string;
  every?: number;
}

interface Opened {
  line: StationLine;
  fingerprints: Fingerprints;
  isNew: boolean;
  /** Book and port: with another one the line is opened anew. */
  key: string;
}

/** Follows the settings of the open book. @returns a function that ends the line */
export function followStationSettings(home: LineHome): () => Promise<void> {
  const { door } = home;
  let opened: Opened | null = null;
  let timer: NodeJS.Timeout | undefined;
  let stopped = false;
  // One look at a time: opening takes a moment, and the settings may change meanwhile.
  let looking = Promise.resolve();

  function look(): Promise<void> {
    looking = looking
      .then(() => follow(stopped ? null : door.settings()))
      .catch(failed)
      .then(door.lineIs);
    return looking;
  }

  async function follow(settings: StationSettings | null): Promise<StationLineState> {
    const book = home.book();
    const isOn = settings !== null && settings.on && settings.address !== null && book !== null;
    const key = isOn ? JSON.stringify([book.path, settings.port]) : '';
    if (opened && opened.key !== key) {
      opened.line.close();
      opened = null;
    }
    clearTimeout(timer);
    if (!isOn || settings.address === null) return { state: 'off' };
    timer = setTimeout(look, home.every ?? LOOK_EVERY).unref();
    const names = namesAt(settings.address);
    // A line that is open stays so: the network may come back.
    if (!names) throw new ProblemError('missing', 'line.no-address');
    opened ??= { ...(await openLine(home, book, settings.port)), key };
    await opened.line.serve(names, new Date());
    const { fingerprints, isNew } = opened;
    return { state: 'open', ...names, port: settings.port, fingerprints, isNew };
  }

  const stopFollowing = door.onSettings(() => void look());
  void look();
  return () => {
    stopped = true;
    stopFollowing();
    return look();
  };
}

async function openLine(
  { door, windowFolder }: LineHome,
  { path, shop }: { path: string; shop: string },
  port: number,
): Promise<Omit<Opened, 'key'>> {
  const [{ openAuthority }, { openStationLine }] = await Promise.all([
    import('../authority/open.ts'),
    import('./line.ts'),
  ]);
  const authority = await openAuthority(path, shop, new Date());
  const line = await openStationLine({ door, authority, windowFolder, port, shop });
  return { line, fingerprints: authority.fingerprints, isNew: authority.isNew };
}

function failed(error: unknown): StationLineState {
  if (error instanceof ProblemError) return { state: 'failed', problem: error.problem };
  console.error('Gambrel: the line for stations failed.', error);
  return { state: 'failed', problem: { kind: 'broken', code: 'desk.failed' } };
}
