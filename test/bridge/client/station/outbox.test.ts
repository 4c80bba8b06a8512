/** The sender of an outbox against a desk that keeps its order strictly, and loses answers. */
import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sendOutbox } from '../../../../src/bridge/client/station/outbox.ts';
import type { OutboxEntry, Taken } from '../../../../src/desk/contract/stations.ts';
import { memoryOutbox, type MemoryOutbox } from './memory-outbox.ts';

const CONFLICT = { kind: 'conflict', code: 'weight.unlikely' } as const;

/** Takes the next number of each line and nothing else, as `takeOnce` of the desk does. */
function strictDesk(answerTo: (entry: OutboxEntry) => Taken | null = () => null) {
  const lines = new Map<string, OutboxEntry[]>();
  const taken: OutboxEntry[] = [];
  return {
    taken,
    lines,
    post(entry: OutboxEntry): Taken {
      const kept = lines.get(entry.line) ?? [];
      lines.set(entry.line, kept);
      const notTaken = (code: string, expected: number | null): Taken => ({
        taken: false,
        expected,
        problem: { kind: 'conflict', code },
      });
      const known = kept[entry.number - 1];
      if (known && known.id !== entry.id) return notTaken('entry.other-payload', kept.length + 1);
      if (!known && entry.number !== kept.length + 1) return notTaken('entry.gap', kept.length + 1);
      if (!known && taken.some(({ id }) => id === entry.id)) return notTaken('entry.twice', kept.length + 1);
      const own = answerTo(entry);
      if (own?.taken === false) return own;
      if (!known) {
        kept.push(entry);
        taken.push(entry);
      }
      return {
        taken: true,
        number: entry.number,
        repeated: known !== undefined,
        answer: own?.answer ?? { ok: true, value: { id: entry.number } },
      };
    },
  };
}

function filled(count: number): MemoryOutbox {
  const outbox = memoryOutbox();
  for (let one = 1; one <= count; one += 1)
    outbox.put({ name: 'table.weigh', input: { one }, lineage: 'b', said: 'MK' });
  return outbox;
}

const send = (outbox: MemoryOutbox, desk: { post(entry: OutboxEntry): Taken }) =>
  sendOutbox(outbox, async (entry) => desk.post(entry), randomUUID);
const states = ({ entries }: MemoryOutbox) => entries.map(({ outcome }) => outcome.state);
const numbers = (entries: readonly OutboxEntry[]) =>
  entries.map(({ input }) => (input as { one: number }).one);

describe('sending', () => {
  it('goes in the order of typing, and keeps the desk’s answer with each entry', async () => {
    const outbox = filled(3);
    const desk = strictDesk();
    const sent: number[] = [];
    const post = (entry: OutboxEntry) => {
      sent.push(entry.number);
      return desk.post(entry);
    };
    expect(await send(outbox, { post })).toBeNull();
    expect(sent).toEqual([1, 2, 3]);
    expect(numbers(desk.taken)).toEqual([1, 2, 3]);
    expect(outbox.entries.map(({ number, outcome }) => [number, outcome])).toEqual(
      [1, 2, 3].map((id) => [id, { state: 'saved', answer: { id } }]),
    );
  });

  it('brings each entry once and in order, wherever answers are lost', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.constantFrom('arrives', 'lost', 'answer lost'), { maxLength: 60 }),
        async (line) => {
          const outbox = filled(12);
          const desk = strictDesk();
          const faults = line.values();
          for (let tries = 0; tries <= line.length; tries += 1) {
            const done = await sendOutbox(outbox, async (entry) => {
            const fault = faults.next().value ?? 'arrives';
            if (fault === 'lost') throw new Error(fault);
            const answer = desk.post(entry);
            if (fault === 'answer lost') throw new Error(fault);
            return answer;
          }, randomUUID).catch((error: Error) => error); // prettier-ignore
            if (done === null) break;
          }
          expect(numbers(desk.taken)).toEqual(outbox.entries.map(({ order }) => order));
          expect(new Set(states(outbox))).toEqual(new Set(['saved']));
        },
      ),
    );
  });

  it('leaves a doubt and a refusal to a person, and goes on', async () => {
    const outbox = filled(3);
    const answers = [CONFLICT, { kind: 'invalid', code: 'reading.empty' } as const, null];
    const desk = strictDesk(({ number }) => {
      const problem = answers[number - 1];
      return problem ? { taken: true, number, repeated: false, answer: { ok: false, problem } } : null;
    });
    expect(await send(outbox, desk)).toBeNull();
    expect(states(outbox)).toEqual(['asks', 'refused', 'saved']);
  });

  it('passes by an entry that can never be sent, whose number the next one takes', async () => {
    const outbox = filled(3);
    const desk = strictDesk(({ input }) =>
      (input as { one: number }).one === 2
        ? { taken: false, expected: null, problem: { kind: 'invalid', code: 'entry.too-large' } }
        : null,
    );
    expect(await send(outbox, desk)).toBeNull();
    expect(states(outbox)).toEqual(['saved', 'refused', 'saved']);
    expect(outbox.entries.map(({ number }) => number)).toEqual([1, null, 2]);
  });
});

describe('what names something that an earlier entry makes', () => {
  const made = '5d0d1cb6-7a4b-4e0c-9b55-0f4b1c6b9b03';
  function withAnimal(): MemoryOutbox {
    const outbox = memoryOutbox();
    outbox.put({ name: 'intake.takeIn', input: { one: 1 }, lineage: 'b', said: 'MK', makes: made });
    outbox.put({ name: 'table.weigh', input: { one: 2, animalId: { made } }, lineage: 'b', said: 'MK' });
    outbox.put({ name: 'table.weigh', input: { one: 3 }, lineage: 'b', said: 'MK' });
    return outbox;
  }

  it('is sent after it, under the same name', async () => {
    const outbox = withAnimal();
    const desk = strictDesk();
    expect(await send(outbox, desk)).toBeNull();
    expect(numbers(desk.taken)).toEqual([1, 2, 3]);
    expect(desk.taken.map(({ makes, input }) => makes ?? input)).toMatchObject([
      made,
      { animalId: { made } },
      {},
    ]);
  });

  it('waits while a person is asked about that, and others go on', async () => {
    const outbox = withAnimal();
    const desk = strictDesk(({ makes, number }) =>
      makes === undefined
        ? null
        : { taken: true, number, repeated: false, answer: { ok: false, problem: CONFLICT } },
    );
    expect(await send(outbox, desk)).toBeNull();
    expect(states(outbox)).toEqual(['asks', 'waiting', 'saved']);
    const [first] = outbox.entries;
    await outbox.settle(
      [{ ...first!, outcome: { state: 'dropped', problem: CONFLICT } }],
      await outbox.line(),
    );
    expect(await send(outbox, desk)).toBeNull();
    expect(states(outbox)).toEqual(['dropped', 'saved', 'saved']);
  });
});

describe('a desk that does not take what comes', () => {
  it.each(['station.paused', 'book.disk-full', 'entry.wire', 'entry.other-book'])(
    'keeps everything and says why: %s',
    async (code) => {
      const outbox = filled(2);
      const problem = { kind: 'conflict', code } as const;
      const desk = strictDesk(() => ({ taken: false, expected: null, problem }));
      expect(await send(outbox, desk)).toEqual(problem);
      expect(states(outbox)).toEqual(['waiting', 'waiting']);
    },
  );

  it('gets again what a restored book no longer has', async () => {
    const outbox = filled(4);
    const desk = strictDesk();
    await send(outbox, desk);
    for (const kept of desk.lines.values()) kept.splice(2);
    desk.taken.splice(2);
    outbox.put({ name: 'table.weigh', input: { one: 5 }, lineage: 'b', said: 'MK' });
    expect(await send(outbox, desk)).toBeNull();
    expect(numbers(desk.taken)).toEqual([1, 2, 3, 4, 5]);
  });

  it('gets no entry twice after the device lost its count of the line', async () => {
    const outbox = filled(3);
    const desk = strictDesk();
    await send(outbox, desk);
    const { id } = await outbox.line();
    await outbox.settle([], { id, last: 0 });
    outbox.put({ name: 'table.weigh', input: { one: 4 }, lineage: 'b', said: 'MK' });
    expect(await send(outbox, desk)).toBeNull();
    expect(numbers(desk.taken)).toEqual([1, 2, 3, 4]);
  });

  it('gets an entry that it has from a former pairing no second time', async () => {
    const outbox = filled(1);
    const desk = strictDesk();
    // Taken, but the answer was lost, and the device was paired anew meanwhile.
    await sendOutbox(outbox, async (entry) => {
      desk.post(entry);
      throw new Error('lost');
    }, randomUUID).catch(() => undefined); // prettier-ignore
    await outbox.settle([], { id: randomUUID(), last: 0 });
    outbox.put({ name: 'table.weigh', input: { one: 2 }, lineage: 'b', said: 'MK' });
    expect(await send(outbox, desk)).toBeNull();
    expect(numbers(desk.taken)).toEqual([1, 2]);
    expect(states(outbox)).toEqual(['saved', 'saved']);
  });

  it('is left alone when its answer to the same entry does not change', async () => {
    const outbox = filled(1);
    let asked = 0;
    const problem = { kind: 'conflict', code: 'entry.gap' } as const;
    const post = () => {
      asked += 1;
      return { taken: false, expected: 1, problem } as const;
    };
    expect(await send(outbox, { post })).toEqual(problem);
    expect(asked).toBe(2);
  });
});
