// @vitest-environment happy-dom
/** The scale of a window against a port over real streams: displayed weight, offered weight, recovery. */
import { createPinia, setActivePinia } from 'pinia';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ref } from 'vue';
import { makeScale } from '../../../src/ui/scale/make-scale.ts';
import { printable, tryLesson } from '../../../src/ui/scale/learn-line.ts';
import { onLinux, type PortSource, type ScalePort } from '../../../src/ui/scale/port.ts';
import { makePracticePort, type PracticePort } from '../../../src/ui/scale/practice-port.ts';
import { readSettings, requestBytes, USUAL } from '../../../src/ui/scale/scale-settings.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { scaleProblem, scaleSentence } from '../../../src/ui/scale/scale-sentence.ts';

const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
const LOAD = { weight: 18.62, unit: 'lb', decimals: 2, moving: false } as const;

/** A window's storage, ports and clock. */
function around(known: ScalePort[] = [], kept: string | null = null) {
  const store = new Map<string, string>(kept === null ? [] : [['gambrel.scale', kept]]);
  const events = new EventTarget();
  let next: ScalePort | Error = new DOMException('No port was chosen.', 'NotFoundError');
  const ports: PortSource = {
    getPorts: async () => known,
    async requestPort() {
      if (next instanceof Error) throw next;
      return next;
    },
    addEventListener: events.addEventListener.bind(events),
  };
  const storage = {
    getItem: (key: string) => store.get(key) ?? null,
    setItem: (key: string, value: string) => void store.set(key, value),
    removeItem: (key: string) => void store.delete(key),
  };
  return {
    scale: makeScale({ ports, storage, now: () => performance.now() }),
    store,
    events,
    choose: (port: ScalePort | Error) => void (next = port),
  };
}

/** A scale on a port that sends only what the test sends. */
async function connected(settings: string | null = null) {
  const port = makePracticePort(LOAD, 0);
  const window = around([], settings);
  window.choose(port);
  await window.scale.choose();
  const say = async (...texts: string[]): Promise<void> => {
    texts.forEach(port.send);
    await vi.advanceTimersByTimeAsync(1);
  };
  await say('\r\n');
  return { ...window, port, say };
}
const state = ({ scale }: { scale: ReturnType<typeof makeScale> }) => scale.shown.value.state;

beforeEach(() => void vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'performance', 'Date'] }));
afterEach(() => void vi.useRealTimers());

describe('the shown and offered weight', () => {
  it('is absent without a scale', () => {
    const { scale } = around();
    expect(scale.shown.value).toEqual({ state: 'none', weight: null, range: null, problem: null });
    expect(scale.offered.value).toBeNull();
  });

  it('goes from connected over moving to stable, and offers only a stable weight', async () => {
    const at = await connected();
    expect(state(at)).toBe('connected');
    await at.say('US,GS,+  18.60lb\r\n');
    expect([state(at), at.scale.offered.value]).toEqual(['unstable', null]);
    await at.say('ST,GS,+  1', '8.62lb\r', '\n');
    expect([state(at), at.scale.offered.value]).toEqual(['reading', '18.62 lb']);
    await at.say('US,GS,+  18.64lb\r\n');
    expect(at.scale.offered.value).toBeNull();
  });

  it.each([
    ['ST,GS,+   0.00lb\r\n', 'reading', 'Nothing on the scale.'],
    ['ST,GS,-   0.20lb\r\n', 'reading', 'Below zero. Zero it at the scale.'],
    ['ST,OL\r\n', 'overload', 'Overload. Take some off.'],
    ['ST,UL\r\n', 'overload', 'Below the scale’s range. Zero it at the scale.'],
    ['  18.62\r\n', 'connected', expect.stringMatching(/does not send its unit/)],
    ['T 0.50 lb\r\n', 'connected', expect.stringMatching(/sent “T”/)],
  ])('does not offer %j: it is %s', async (line, is, sentence) => {
    const at = await connected();
    await at.say(line);
    expect([state(at), at.scale.offered.value]).toEqual([is, null]);
    expect(scaleSentence(at.scale.shown.value, format)).toEqual(sentence);
  });

  it('determines stability itself where the scale does not report it', async () => {
    const at = await connected();
    for (let i = 0; i < 4; i++) {
      await at.say('  18.62 lb\r\n');
      expect(at.scale.offered.value).toBeNull();
      await vi.advanceTimersByTimeAsync(200);
    }
    await at.say('  18.62 lb\r\n');
    expect(at.scale.offered.value).toBe('18.62 lb');
    await at.say('  18.66 lb\r\n');
    expect([state(at), at.scale.offered.value]).toEqual(['unstable', null]);
  });

  it('withdraws its offer when the scale falls silent', async () => {
    const at = await connected();
    await at.say('ST,GS,+  18.62lb\r\n');
    await vi.advanceTimersByTimeAsync(2000);
    expect(at.scale.offered.value).toBe('18.62 lb');
    await vi.advanceTimersByTimeAsync(1000);
    expect([state(at), at.scale.offered.value]).toEqual(['connected', null]);
    expect(at.scale.shown.value.problem).toEqual({ code: 'scale.silent' });
  });

  it('does not take the tail of a number for a weight when opened mid-stream', async () => {
    const port = makePracticePort(LOAD, 0);
    const { scale, choose } = around();
    choose(port);
    await scale.choose();
    port.send('8.62 lb\r\n');
    await vi.advanceTimersByTimeAsync(1);
    expect(scale.lines.value).toEqual([]);
  });
});

describe('recovery', () => {
  it('reports a disconnected scale in mid-line, and continues when it is back', async () => {
    const at = await connected();
    await at.say('ST,GS,+  18.62lb\r\nST,GS,+  1');
    at.port.unplug();
    await vi.advanceTimersByTimeAsync(1);
    expect([state(at), at.scale.offered.value]).toEqual(['gone', null]);
    expect(scaleSentence(at.scale.shown.value, format)).toMatch(/Check its cable; typing still works/);
    await at.scale.choose();
    await at.say('9.99lb\r\n', 'ST,GS,+  18.64lb\r\n');
    expect(at.scale.lines.value).toEqual(['ST,GS,+  18.64lb']);
    expect(at.scale.offered.value).toBe('18.64 lb');
  });

  it('reconnects when the same port is plugged in again', async () => {
    const port = makePracticePort(LOAD, 0);
    const { scale, events } = around([port], JSON.stringify({ port: {} }));
    await scale.resume();
    expect(scale.shown.value.state).toBe('connected');
    port.unplug();
    await vi.advanceTimersByTimeAsync(1);
    expect(scale.shown.value.state).toBe('gone');
    events.dispatchEvent(new Event('connect'));
    await vi.advanceTimersByTimeAsync(1);
    expect(scale.shown.value.state).toBe('connected');
  });

  it('does not reconnect to another port', async () => {
    const { scale } = around(
      [makePracticePort(LOAD, 0)],
      JSON.stringify({ port: { usbVendorId: 1, usbProductId: 2 } }),
    );
    await scale.resume();
    expect(scale.shown.value.state).toBe('none');
  });

  it('loses only the line with a corrupted byte', async () => {
    const at = await connected();
    await at.say('ST,GS,+  1');
    at.port.damage();
    await at.say('8.62lb\r\n', 'ST,GS,+  18.64lb\r\n');
    expect(at.scale.lines.value).toEqual(['ST,GS,+  18.64lb']);
    await at.say('ST,GS,+  1\xff.66lb\r\n');
    expect(at.scale.offered.value).toBe('18.64 lb');
  });

  it('gives up on a port that always fails', async () => {
    const at = await connected();
    for (let i = 0; i < 60; i++) {
      at.port.damage();
      await vi.advanceTimersByTimeAsync(1);
    }
    expect(state(at)).toBe('gone');
  });

  it('reports why a port could not be opened, and nothing when none was chosen', async () => {
    const port = makePracticePort(LOAD, 0);
    await port.open(USUAL);
    const { scale, choose } = around();
    await scale.choose();
    expect(scale.shown.value).toMatchObject({ state: 'none', problem: null });
    choose(port);
    await scale.choose();
    expect(scale.shown.value).toMatchObject({ state: 'gone', problem: { code: 'port.shut' } });
    choose(new DOMException('Not allowed.', 'SecurityError'));
    await scale.choose();
    expect(scaleProblem(scale.shown.value.problem ?? { code: '' }, format)).toMatch(/could not be opened/);
  });
});

describe('settings', () => {
  it('are stored with the port', async () => {
    const at = await connected();
    await at.scale.change({ baudRate: 4800, parity: 'even', dataBits: 7 });
    const again = readSettings(at.store.get('gambrel.scale') ?? null);
    expect(again).toEqual({ ...USUAL, baudRate: 4800, parity: 'even', dataBits: 7, port: {} });
    expect(state(at)).toBe('connected');
    await at.scale.stop();
    expect([state(at), at.scale.settings.value.port]).toEqual(['none', null]);
  });

  it.each([null, 'nonsense', '[]', '7', '{"baudRate":1,"dataBits":9,"parity":"x","stopBits":3,"request":4,"form":{"words":7},"port":{"usbVendorId":"x"}}'])(
    'have defaults when %s was stored',
    (kept) => expect(readSettings(kept)).toEqual(USUAL),
  ); // prettier-ignore

  it('poll the scale with the request, until it is left', async () => {
    expect([...requestBytes('W\\r\\n')]).toEqual([0x57, 0x0d, 0x0a]);
    const at = await connected(JSON.stringify({ request: 'W\\r' }));
    await vi.advanceTimersByTimeAsync(1300);
    expect(at.port.requests).toBe('W\rW\rW\r');
    await at.scale.stop();
    await vi.advanceTimersByTimeAsync(1300);
    expect(at.port.requests).toBe('W\rW\rW\r');
  });

  it("learn a line's format by example, which is used from then on", async () => {
    const at = await connected();
    await at.say('\x02001862\r');
    expect(at.scale.shown.value.problem?.code).toBe('scale.no-unit');
    const line = at.scale.lines.value.at(-1) ?? '';
    const lesson = { line, from: 0, to: 6, unit: 'lb', decimals: 2 } as const;
    expect(tryLesson({ ...lesson, unit: '' })).toMatchObject({
      ok: false,
      problem: { code: 'scale.no-unit' },
    });
    const learnt = tryLesson(lesson);
    expect(learnt).toMatchObject({ ok: true, typed: '18.62 lb' });
    if (learnt.ok) await at.scale.change({ form: learnt.form });
    expect(readSettings(at.store.get('gambrel.scale') ?? null).form).toEqual(learnt.ok && learnt.form);
    for (let i = 0; i < 6; i++) {
      await at.say('\x02000704\r');
      await vi.advanceTimersByTimeAsync(200);
    }
    expect(at.scale.offered.value).toBe('7.04 lb');
  });

  it('show a line with unchanged positions', () => expect(printable('\n 18.62\xffb\r')).toBe('· 18.62·b·'));
});

describe('the practice scale', () => {
  async function practising(load: Parameters<PracticePort['put']>[0]) {
    const window = around();
    await window.scale.practise(load);
    await vi.advanceTimersByTimeAsync(2000);
    return window;
  }

  it('sends its weight in fragments, stable or moving, and dashes when it is too heavy', async () => {
    const at = await practising(LOAD);
    expect(at.scale.offered.value).toBe('18.62 lb');
    at.scale.practice.value?.put({ ...LOAD, moving: true });
    await vi.advanceTimersByTimeAsync(250);
    expect([state(at), at.scale.offered.value]).toEqual(['unstable', null]);
    at.scale.practice.value?.put({ ...LOAD, weight: 301 });
    await vi.advanceTimersByTimeAsync(250);
    expect(state(at)).toBe('overload');
  });

  it('is not stored, and leaves nothing behind', async () => {
    const at = await practising({ ...LOAD, unit: 'kg', decimals: 3, weight: 8.445 });
    expect(at.scale.offered.value).toBe('8.445 kg');
    expect(at.store.size).toBe(0);
    await at.scale.stop();
    expect([state(at), at.scale.practice.value]).toEqual(['none', null]);
    await vi.advanceTimersByTimeAsync(2000);
    expect(state(at)).toBe('none');
  });
});

describe('a number entry beside the scale', () => {
  async function entry() {
    vi.stubGlobal('navigator', {});
    vi.stubGlobal('localStorage', { getItem: () => null, setItem: () => undefined });
    setActivePinia(createPinia());
    const { useScale } = await import('../../../src/ui/scale/useScale.ts');
    const { useScaleEntry } = await import('../../../src/ui/scale/useScaleEntry.ts');
    const scale = useScale();
    await scale.practise(LOAD);
    await vi.advanceTimersByTimeAsync(1000);
    const typed = ref('');
    return { typed, scale, ...useScaleEntry(typed) };
  }
  function press(key: string, more: Partial<KeyboardEvent> = {}) {
    const preventDefault = vi.fn();
    return {
      event: {
        key,
        ctrlKey: false,
        altKey: false,
        metaKey: false,
        ...more,
        preventDefault,
      } as unknown as KeyboardEvent,
      preventDefault,
    };
  }
  afterEach(() => void vi.unstubAllGlobals());

  it('takes the weight with Space as the scale showed it, and knows its source', async () => {
    const { typed, source, onKey } = await entry();
    const { event, preventDefault } = press(' ');
    expect([typed.value, source.value]).toEqual(['', 'typed']);
    expect(onKey(event)).toBe(true);
    expect(preventDefault).toHaveBeenCalledOnce();
    expect([typed.value, source.value]).toEqual(['18.62 lb', 'practice']);
  });

  it('counts as typed as soon as it is edited, even back to the same', async () => {
    const { typed, source, take } = await entry();
    take();
    typed.value = '18.63 lb';
    expect(source.value).toBe('typed');
    typed.value = '18.62 lb';
    expect(source.value).toBe('typed');
  });

  it('never replaces typed text, and keeps its spaces', async () => {
    const { typed, source, onKey, take } = await entry();
    typed.value = '18';
    expect(onKey(press(' ').event)).toBe(false);
    expect(onKey(press('F2').event)).toBe(true);
    expect(take()).toBe(false);
    expect([typed.value, source.value]).toEqual(['18', 'typed']);
  });

  it('replaces an older weight of the scale by a newer one', async () => {
    const { typed, source, scale, onKey } = await entry();
    onKey(press('F2').event);
    scale.practice?.put({ ...LOAD, weight: 20 });
    await vi.advanceTimersByTimeAsync(500);
    expect(typed.value).toBe('18.62 lb');
    onKey(press(' ').event);
    expect([typed.value, source.value]).toEqual(['20.00 lb', 'practice']);
  });

  it('takes nothing while the weight moves, and handles no key without a scale', async () => {
    const { typed, scale, onKey } = await entry();
    scale.practice?.put({ ...LOAD, moving: true });
    await vi.advanceTimersByTimeAsync(500);
    expect(onKey(press(' ').event)).toBe(true);
    expect(typed.value).toBe('');
    expect(onKey(press(' ', { ctrlKey: true }).event)).toBe(false);
    await scale.stop();
    expect(onKey(press(' ').event)).toBe(false);
  });
});

it('explains the group of serial ports on Linux, and nowhere else', () => {
  expect(onLinux('Mozilla/5.0 (X11; Linux x86_64) AppleWebKit/537.36 Chrome/152.0.0.0 Safari/537.36')).toBe(
    true,
  );
  expect(onLinux('Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 Chrome/152.0.0.0 Mobile')).toBe(
    false,
  );
  expect(onLinux('Mozilla/5.0 (Windows NT 10.0; Win64; x64) Chrome/152.0.0.0')).toBe(false);
  expect(onLinux('Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) Chrome/152.0.0.0')).toBe(false);
});
