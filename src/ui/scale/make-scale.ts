import { useIntervalFn, useStorage, type StorageLike } from '@vueuse/core';
import { computed, reactive, ref, shallowRef } from 'vue';
import { listenTo, type Listening } from './listen.ts';
import { isSamePort, type PortSource, type ScalePort } from './port.ts';
import { makePracticePort, type PracticeLoad, type PracticePort } from './practice-port.ts';
import { readSettings, USUAL, type ScaleSettings } from './scale-settings.ts';
import { makeWatch, type ScaleProblem, type Shown } from '../link/scale-watch.ts';

/** Number of lines shown in the setup. */
const LINES_KEPT = 8;
const POLL_EVERY_MS = 200;
const NOTHING: Shown = { state: 'none', weight: null, range: null, problem: null };

interface ScaleAround {
  /** Null in a browser without serial ports. */
  ports: PortSource | null;
  storage: StorageLike;
  /** A monotonic clock in milliseconds. */
  now(): number;
}

/** The scale of this window: its port, its reading, and the weight that it offers. A person takes it, or types. */
export function makeScale({ ports, storage, now }: ScaleAround) {
  const settings = useStorage<ScaleSettings>('gambrel.scale', USUAL, storage, {
    serializer: { read: readSettings, write: JSON.stringify },
    writeDefaults: false,
    listenToStorageChanges: false,
    shallow: true,
    flush: 'sync',
  });
  const shown = shallowRef<Shown>(NOTHING);
  /** As received, newest last. */
  const lines = shallowRef<string[]>([]);
  const practice = shallowRef<PracticePort | null>(null);
  /** The state of the practice scale; it persists between pages. */
  const practiceLoad = reactive({ weight: '0', moving: false });
  const busy = ref(false);
  let listening: Listening | null = null;
  let port: ScalePort | null = null;
  let turn: Promise<unknown> = Promise.resolve();

  /** Only a stable weight above zero. */
  const offered = computed(() => {
    const { state, weight } = shown.value;
    return state === 'reading' && weight && weight.sign > 0 && weight.digits > 0 ? weight.typed : null;
  });

  async function connect(next: ScalePort): Promise<void> {
    await disconnect();
    // The previous reading is no longer valid, but the scale stays connected, so that its setup stays open.
    shown.value = { ...NOTHING, state: 'connected' };
    const watch = makeWatch(settings.value.form);
    const readNow = (): void => void (shown.value = watch.shownAt(now()));
    try {
      listening = await listenTo(next, settings.value, {
        onLine(line) {
          lines.value = [...lines.value, line].slice(-LINES_KEPT);
          watch.hear(line, now());
          readNow();
        },
        onDamage: () => watch.damage(),
      });
    } catch (error) {
      shown.value = {
        ...NOTHING,
        state: 'gone',
        problem: { code: 'port.shut', with: { why: String(error) } },
      };
      return;
    }
    port = next;
    readNow();
    const polling = useIntervalFn(readNow, POLL_EVERY_MS);
    void listening.ended.then((how) => {
      polling.pause();
      listening = port = null;
      if (how === 'gone') shown.value = { ...NOTHING, state: 'gone' };
    });
  }

  async function disconnect(): Promise<void> {
    await listening?.stop();
    lines.value = [];
  }

  /** Port operations are queued: the next runs whether or not the previous succeeded. */
  function inTurn(work: () => Promise<void>): Promise<void> {
    busy.value = true;
    const result = turn.then(work).finally(() => {
      if (turn === after) busy.value = false;
    });
    const after = result.catch(() => undefined);
    turn = after;
    return result;
  }

  function save(changes: Partial<ScaleSettings>): void {
    settings.value = { ...settings.value, ...changes };
  }
  function showProblem(problem: ScaleProblem): void {
    shown.value = { ...shown.value, problem };
  }

  /** Requests a port; call it from a click or a key. */
  const choose = (): Promise<void> =>
    inTurn(async () => {
      try {
        const chosen = await ports?.requestPort();
        if (!chosen) return;
        practice.value = null;
        save({ port: chosen.getInfo() });
        await connect(chosen);
      } catch (error) {
        // The person closed the list without choosing.
        if (error instanceof DOMException && error.name === 'NotFoundError') return;
        showProblem({ code: 'port.shut', with: { why: String(error) } });
      }
    });

  /** Reopens the last port, if permission is not required. */
  const resume = (): Promise<void> =>
    inTurn(async () => {
      const last = settings.value.port;
      if (!ports || !last || port) return;
      const known = (await ports.getPorts()).find((one) => isSamePort(one.getInfo(), last));
      if (known) await connect(known);
    });

  /** Stores settings, and reconnects with them. */
  const change = (changes: Partial<ScaleSettings>): Promise<void> =>
    inTurn(async () => {
      save(changes);
      if (port) await connect(port);
    });

  const stop = (): Promise<void> =>
    inTurn(async () => {
      await disconnect();
      shown.value = NOTHING;
      if (!practice.value) save({ port: null });
      practice.value = null;
    });

  const practise = (load: PracticeLoad): Promise<void> =>
    inTurn(async () => {
      const fresh = makePracticePort(load);
      practice.value = fresh;
      await connect(fresh);
    });

  ports?.addEventListener('connect', () => void resume());
  return {
    settings,
    shown,
    lines,
    practice,
    practiceLoad,
    busy,
    offered,
    choose,
    resume,
    change,
    stop,
    practise,
  };
}
