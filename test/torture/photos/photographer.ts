/**
 * A shop that photographs, to be killed: `node photographer.ts BOOK SEED` stores the file of a photograph, adds its entry, backs up
 * now and then, and writes a line for each answer once it has it. It goes on until it is killed.
 */
import { existsSync, writeSync } from 'node:fs';
import { seededRandom } from '../../../src/core/stats/random.ts';
import { openDesk } from '../../../src/desk/desk.ts';
import { base64Of, photoOf } from '../../photo-of.ts';

const [bookPath = '', seed = '1'] = process.argv.slice(2);
const chance = seededRandom(Number(seed));
const isNew = !existsSync(bookPath);
const desk = await openDesk({ bookPath, upkeep: { backUpEvery: 70, lookEvery: 20 } });
const say = (line: string) => writeSync(1, `${line}\n`);
const ask = async (name: string, input: object) => {
  const answer = await desk.call(name, { ...input, by: 'MK' });
  return answer.ok ? (answer.value as { id: number; digest: string }) : null;
};

if (isNew) await ask('shop.setUp', { shopName: 'Torture', unit: 'lb' });
const animal = { hunter: { name: 'Bo Rask' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned' };
let animalId = 0;
for (let taken = 0; ; taken += 1) {
  // An animal has a hundred photographs at most.
  if (taken % 50 === 0) animalId = (await ask('intake.takeIn', animal))?.id ?? animalId;
  const file = photoOf(Number(seed) * 10_000 + taken, 64, 64);
  const stored = await ask('photos.store', { base64: base64Of(file) });
  if (!stored) continue;
  say(`stored ${stored.digest}`);
  // Now and then the entry never comes.
  if (chance.uniform() < 1 / 6) continue;
  const added = await ask('photos.add', { animalId, kind: 'damage', digest: stored.digest });
  if (added) say(`added ${stored.digest}`);
  await new Promise((resolve) => setImmediate(resolve));
}
