/** Loads the data of labels: batches, the animals in them, the fat on hand. */
import type { AnimalPage, Answer, BatchPage, FatLotRow, MadeLabel, MadePage } from '../../bridge/contract.ts';
import type { Language } from '../../words/languages.ts';
import { call } from '../link/bridge.ts';
import { loadWords } from '../link/load-words.ts';

export interface BatchSource {
  batch: BatchPage;
  lots: FatLotRow[];
  animals: AnimalPage[];
}

export interface AnimalSource {
  animal: AnimalPage;
  batches: BatchSource[];
}

/** A batch with the animals whose trim it contains. */
export async function gatherBatch(id: number, language?: Language): Promise<Answer<BatchSource>> {
  const [batch, lots] = await Promise.all([
    call('grinder.getBatch', { id }, language),
    call('fat.listLots', { usedUp: false, batchId: id }, language),
  ]);
  if (!batch.ok) return batch;
  if (!lots.ok) return lots;
  const animals = await everyAnswer(
    batch.value.owners.map(({ ticket }) => call('animals.get', { ticket }, language)),
  );
  if (!animals.ok) return animals;
  return { ok: true, value: { batch: batch.value, lots: lots.value, animals: animals.value } };
}

/** An animal with the batches that contain its trim. */
export async function gatherAnimal(ticket: string, language?: Language): Promise<Answer<AnimalSource>> {
  const animal = await call('animals.get', { ticket }, language);
  if (!animal.ok) return animal;
  const batches = await everyAnswer(animal.value.batches.map(({ id }) => gatherBatch(id, language)));
  if (!batches.ok) return batches;
  return { ok: true, value: { animal: animal.value, batches: batches.value } };
}

export interface MadeSource {
  label: MadeLabel;
  made: MadePage;
}

/** A batch of the smokehouse with what its label says. */
export async function gatherMade(id: number, language?: Language): Promise<Answer<MadeSource>> {
  const [label, made] = await Promise.all([
    call('made.label', { id }, language),
    call('made.get', { id }, language),
  ]);
  if (!label.ok) return label;
  if (!made.ok) return made;
  return { ok: true, value: { label: label.value, made: made.value } };
}

/** The same in the window's language, and in each language that labels of it may have. */
export interface Gathered<T> {
  shown: T;
  said: ReadonlyMap<Language, T>;
}

/**
 * Gathers in the window's language and in those of the labels, and loads the words of these.
 * @param languagesOf the languages of the labels
 */
export async function inEachLanguage<T>(
  gather: (language?: Language) => Promise<Answer<T>>,
  languagesOf: (shown: T) => readonly Language[],
): Promise<Answer<Gathered<T>>> {
  const shown = await gather();
  if (!shown.ok) return shown;
  const languages = [...new Set(languagesOf(shown.value))];
  const [said, problems] = await Promise.all([
    everyAnswer(languages.map((language) => gather(language))),
    Promise.all(languages.map(loadWords)),
  ]);
  if (!said.ok) return said;
  const [problem] = problems.filter((one) => one !== null);
  if (problem) return { ok: false, problem };
  const pairs = said.value.map((value, i) => [languages[i] as Language, value] as const);
  return { ok: true, value: { shown: shown.value, said: new Map(pairs) } };
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
