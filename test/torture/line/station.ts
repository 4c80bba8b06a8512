/** A station with an outbox, as a device is one: it sends in order, again until it is answered, and sometimes too often. */
import { randomUUID } from 'node:crypto';
import { Agent, request } from 'node:https';
import { text } from 'node:stream/consumers';
import type { RandomGenerator } from '../../../src/core/stats/random.ts';
import type { OutboxEntry, Taken } from '../../../src/desk/contract/stations.ts';

/** Time after which a station takes its line for dead, ms. */
const PATIENCE = 1_500;
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
  more: { secret?: string; agent?: Agent } = {},
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
  entries: OutboxEntry[];
  counts: { sent: number; unanswered: number; repeated: number; ahead: number };
  /** Answers that differ from an earlier one to the same entry, and refusals that should not be. */
  faults: string[];
  /** Sends everything; resolves when the desk has answered each entry. */
  send(): Promise<void>;
}

/** @param lineage of the entrance under which the entries are typed */
export function openOutbox(
  place: DeskPlace,
  { secret, lineage, name, count }: { secret: string; lineage: string; name: string; count: number },
  chance: RandomGenerator,
): Outbox {
  const line = randomUUID();
  const entries = Array.from({ length: count }, (_, at) => ({
    wire: 1,
    line,
    number: at + 1,
    id: randomUUID(),
    lineage,
    name: 'hunters.save',
    input: { name: `Hunter ${name}-${at + 1}`, by: 'S' },
    at: '2026-11-20T15:00:00.000Z',
    aheadMs: 0,
    said: 'S',
  }));
  const counts = { sent: 0, unanswered: 0, repeated: 0, ahead: 0 };
  const faults: string[] = [];
  const answers = new Map<number, string>();
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });

  /** The answer to one entry, however often that takes. */
  async function deliver(entry: OutboxEntry): Promise<Taken> {
    for (;;) {
      counts.sent += 1;
      try {
        return (await post(place, '/entry', entry, { secret, agent })) as Taken;
      } catch {
        counts.unanswered += 1; // a broken line says nothing of what became of the entry
        await new Promise((resolve) => setTimeout(resolve, PAUSE));
      }
    }
  }

  async function deliverAll(): Promise<void> {
    for (const [at, entry] of entries.entries()) {
      const ahead = entries[at + 2];
      if (ahead && chance.uniform() < 0.03) {
        counts.ahead += 1;
        if ((await deliver(ahead)).taken) faults.push(`${ahead.number} was taken before its turn`);
      }
      note(entry, await deliver(entry));
      if (chance.uniform() < 0.05) {
        counts.repeated += 1;
        const old = entries[Math.floor(chance.uniform() * (at + 1))] ?? entry;
        note(old, await deliver(old));
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

  return { entries, counts, faults, send: () => deliverAll().finally(() => agent.destroy()) };
}
