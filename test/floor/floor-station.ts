/** A station of the simulated floor: its outbox is a device's own, sent over a line that breaks. */
import { randomUUID } from 'node:crypto';
import { Agent } from 'node:https';
import { sendOutbox, type KeptEntry } from '../../src/bridge/client/station/outbox.ts';
import type { Answer } from '../../src/desk/contract/problem.ts';
import type { OutboxEntry, Taken } from '../../src/desk/contract/stations.ts';
import type { PhotoKind } from '../../src/trade/photo.ts';
import { memoryOutbox } from '../bridge/client/station/memory-outbox.ts';
import { post, type DeskPlace } from '../torture/line/station.ts';
import { putPhoto, type Photo } from './put-photo.ts';

/** Pause before it sends again after a broken line, ms. */
const PAUSE = 15;

export interface FloorStation {
  name: string;
  entries: readonly KeptEntry[];
  counts: { unanswered: number; asked: number; waitedMs: number[] };
  /**
   * Enters something; resolves with the desk's answer. What the desk doubts is confirmed, as by somebody who looked again.
   * @throws Error if the desk refuses it
   */
  enter(call: string, input: object): Promise<Record<string, number>>;
  /**
   * Asks the desk itself for what cannot wait in an outbox, until it answers.
   * @throws Error if the desk refuses it
   */
  ask(call: string, input: object): Promise<Record<string, number>>;
  /** Photographs an animal; resolves with the desk's answer. The file goes before its entry. */
  photograph(animalId: number, kind: PhotoKind, photo: Photo): Promise<Record<string, number>>;
  close(): void;
}

/** @param direct the same desk without faults between: an answer that is lost would leave open whether it was done */
export function floorStation(
  place: DeskPlace,
  direct: DeskPlace,
  { name, secret, lineage }: { name: string; secret: string; lineage: string },
): FloorStation {
  const outbox = memoryOutbox();
  const agent = new Agent({ keepAlive: true, maxSockets: 1 });
  const counts: FloorStation['counts'] = { unanswered: 0, asked: 0, waitedMs: [] };
  const waiting = new Map<string, (entry: KeptEntry) => void>();
  const photos = new Map<string, Photo>();
  let isSending = false;
  let hasMore = false;
  const store = {
    ...outbox,
    async settle(...[changed, line]: Parameters<typeof outbox.settle>) {
      await outbox.settle(changed, line);
      for (const entry of changed) if (entry.outcome.state !== 'waiting') waiting.get(entry.id)?.(entry);
    },
  };

  async function send(): Promise<void> {
    hasMore = true;
    if (isSending) return;
    isSending = true;
    while (hasMore) {
      // Something may be entered while the last answer comes.
      hasMore = false;
      try {
        const problem = await sendOutbox(store, deliver, randomUUID);
        if (problem !== null) throw new Error(problem.code);
      } catch {
        counts.unanswered += 1;
        hasMore = true;
        await new Promise((resolve) => setTimeout(resolve, PAUSE));
      }
    }
    isSending = false;
  }

  async function deliver(entry: OutboxEntry): Promise<Taken> {
    const photo = entry.name === 'photos.add' && photos.get((entry.input as { digest: string }).digest);
    if (photo) await putPhoto(place, photo, secret, agent);
    return (await post(place, '/entry', entry, { secret, agent })) as Taken;
  }

  async function answerTo(call: string, input: object): Promise<KeptEntry> {
    const began = performance.now();
    const entry = outbox.put({ name: call, input: { ...input, by: 'S' }, lineage, said: 'S' });
    const answered = new Promise<KeptEntry>((resolve) => waiting.set(entry.id, resolve));
    void send();
    const done = await answered;
    counts.waitedMs.push(performance.now() - began);
    return done;
  }

  async function live(call: string, input: object) {
    const { value } = (await post(direct, '/station', {}, { secret })) as { value: { opening: string } };
    const asked = post(direct, `/call/${call}`, { ...input, by: 'S' }, { secret, opening: value.opening });
    return (await asked) as Answer<Record<string, number>>;
  }

  async function enter(call: string, input: object): Promise<Record<string, number>> {
    const first = await answerTo(call, input);
    if (first.outcome.state === 'asks') counts.asked += 1;
    const { outcome } =
      first.outcome.state === 'asks' ? await answerTo(call, { ...input, confirmed: true }) : first;
    if (outcome.state === 'saved') return outcome.answer;
    throw new Error(`${name}: ${call} ${JSON.stringify(input)}: ${JSON.stringify(outcome)}`);
  }

  return {
    name,
    entries: outbox.entries,
    counts,
    enter,
    photograph(animalId, kind, photo) {
      photos.set(photo.digest, photo);
      return enter('photos.add', { animalId, kind, digest: photo.digest });
    },
    async ask(call, input) {
      for (;;) {
        const answer = await live(call, input).catch(() => null);
        if (answer?.ok) return answer.value;
        if (answer) throw new Error(`${name}: ${call}: ${JSON.stringify(answer.problem)}`);
        await new Promise((resolve) => setTimeout(resolve, PAUSE));
      }
    },
    close: () => agent.destroy(),
  };
}
