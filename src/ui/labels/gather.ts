/** Loads the data of labels: batches, the animals in them, the fat on hand. */
import type { AnimalPage, Answer, BatchPage, FatLotRow } from '../../bridge/contract.ts';
import { call } from '../link/bridge.ts';

interface BatchSource {
  batch: BatchPage;
  lots: FatLotRow[];
  animals: AnimalPage[];
}

interface AnimalSource {
  animal: AnimalPage;
  batches: BatchSource[];
}

/** A batch with the animals whose trim it contains. */
export async function gatherBatch(id: number): Promise<Answer<BatchSource>> {
  const [batch, lots] = await Promise.all([
    call('grinder.getBatch', { id }),
    call('fat.listLots', { usedUp: false, batchId: id }),
  ]);
  if (!batch.ok) return batch;
  if (!lots.ok) return lots;
  const animals = await everyAnswer(batch.value.owners.map(({ ticket }) => call('animals.get', { ticket })));
  if (!animals.ok) return animals;
  return { ok: true, value: { batch: batch.value, lots: lots.value, animals: animals.value } };
}

/** An animal with the batches that contain its trim. */
export async function gatherAnimal(ticket: string): Promise<Answer<AnimalSource>> {
  const animal = await call('animals.get', { ticket });
  if (!animal.ok) return animal;
  const batches = await everyAnswer(animal.value.batches.map(({ id }) => gatherBatch(id)));
  if (!batches.ok) return batches;
  return { ok: true, value: { animal: animal.value, batches: batches.value } };
}

/** All values, or the first problem. */
async function everyAnswer<T>(requests: Promise<Answer<T>>[]): Promise<Answer<T[]>> {
  const values: T[] = [];
  for (const answer of await Promise.all(requests)) {
    if (!answer.ok) return answer;
    values.push(answer.value);
  }
  return { ok: true, value: values };
}
