/** A station with an outbox, as a device is one: it sends in order, again until it is answered, and sometimes too often. */
import { randomUUID } from 'node:crypto';
import { Agent, request } from 'node:https';
import { text } from 'node:stream/consumers';
import type { RandomGenerator } from '../../../src/core/stats/random.ts';
import { OPENING_HEADER } from '../../../src/bridge/wire.ts';
import { sendOutbox, type KeptEntry } from '../../../src/bridge/client/station/outbox.ts';
import type { OutboxEntry, Taken } from '../../../src/desk/contract/stations.ts';
import { memoryOutbox } from '../../bridge/client/station/memory-outbox.ts';

/** Time after which a station takes its line for dead, ms. */
export const PATIENCE = 1_500;
/** Pause before it sends again, ms. */
const PAUSE = 20;

export interface DeskPlace {
  /** Where the device connects: the desk, or a program between. */
  port: number;
  /** What it takes for the desk. */
  host: string;
  /** PEM. */
  root: string;
}

/** A POST over a line that may break; rejects if no whole answer comes. */
export async function post(
  place: DeskPlace,
  path: string,
  body: unknown,
  more: { secret?: string; agent?: Agent; opening?: string } = {},
) {
  const sent = request({
    host: '127.0.0.1',
    port: place.port,
    ca: place.root,
    agent: more.agent ?? false,
    method: 'POST',
    path,
    signal: AbortSignal.timeout(PATIENCE),
    headers: {
      host: place.host,
      origin: `https://${place.host}`,
      'content-type': 'application/json',
      ...(more.secret !== undefined && { authorization: `Bearer ${more.secret}` }),
      ...(more.opening !== undefined && { [OPENING_HEADER]: more.opening }),
    },
  });
  return new Promise<unknown>((resolve, reject) => {
    sent.on('error', reject);
    sent.on('response', (response) => {
      text(response).then((whole) => {
        if (response.statusCode === 200) resolve(JSON.parse(whole));
        else reject(new Error(`${response.statusCode} ${whole}`));
      }, reject);
    });
    sent.end(JSON.stringify(body));
  });
}

export interface Outbox {
  entries: readonly KeptEntry[];
  counts: { sent: number; unanswered: number; repeated: number; ahead: number };
  /** Answers that differ from an earlier one to the same entry, and refusals that should not be. */
  faults: string[];
  /** Sends everything; resolves when the desk has answered each entry. */
  send(): Promise<void>;
}

/**
 * The outbox of a device (src/bridge/client/station), which sends out of turn and again besides.
 * @param lineage of the entrance under which the entries are typed
 */
export function openOutbox(
  place: DeskPlace,
  { secret, lineage, name, count }: { secret: string; lineage: string; name: string; count: number },
  chance: RandomGenerator,
): Outbox {
  const outbox = memoryOutbox();
  for (let one = 1; one <= count; one += 1)
    outbox.put({
      name: 'hunters.save',
      input: { name: `Hunter ${name}-${one}`, by: 'S' },
      lineage,
      said: 'S',
    });
  const counts = { sent: 0, unanswered: 0, repeated: 0, ahead: 0 };
  const faults: string[] = [];
  const sent: OutboxEntry[] = [];
  const answers = new Map<number, string>();
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });

  async function deliver(entry: OutboxEntry): Promise<Taken> {
    counts.sent += 1;
    return (await post(place, '/entry', entry, { secret, agent })) as Taken;
  }

  async function deliverInTurn(entry: OutboxEntry): Promise<Taken> {
    if (chance.uniform() < 0.03) {
      counts.ahead += 1;
      const ahead = { ...entry, id: randomUUID(), number: entry.number + 2 };
      if ((await deliver(ahead)).taken) faults.push(`${ahead.number} was taken before its turn`);
    }
    const taken = await deliver(entry);
    note(entry, taken);
    sent.push(entry);
    if (chance.uniform() < 0.05) {
      counts.repeated += 1;
      const old = sent[Math.floor(chance.uniform() * sent.length)] ?? entry;
      note(old, await deliver(old));
    }
    return taken;
  }

  /** A broken line says nothing of what became of an entry: the outbox is sent from its head again. */
  async function deliverAll(): Promise<void> {
    for (;;) {
      try {
        const problem = await sendOutbox(outbox, deliverInTurn, randomUUID);
        if (problem) faults.push(`the desk takes nothing: ${problem.code}`);
        return;
      } catch {
        counts.unanswered += 1;
        await new Promise((resolve) => setTimeout(resolve, PAUSE));
      }
    }
  }

  function note({ number }: OutboxEntry, taken: Taken): void {
    const said = taken.taken ? JSON.stringify(taken.answer) : JSON.stringify(taken.problem);
    if (!taken.taken || !taken.answer.ok) faults.push(`${number} was refused: ${said}`);
    if ((answers.get(number) ?? said) !== said)
      faults.push(`${number} was answered ${answers.get(number)}, then ${said}`);
    answers.set(number, said);
  }

  return { entries: outbox.entries, counts, faults, send: () => deliverAll().finally(() => agent.destroy()) };
}
