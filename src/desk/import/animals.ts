/** Imports finished animals of earlier seasons, one per row: hunter, species, weights. */
import { compareDates, seasonOf } from '../../core/values/dates.ts';
import { readingGrams, type Reading } from '../../core/values/reading.ts';
import type { AnimalRow } from '../../book/records/animals.ts';
import { canHang } from '../learning/yield-observation.ts';
import { IMPORTED_DAYS, farCode, KILLED_DAYS, LEFT_DAYS } from '../input/day-doubts.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { ImportField } from '../contract/contract.ts';
import { rowsSeen } from './rows-seen.ts';
import type { RowImporter } from './row-importer.ts';
import { peopleOf, writeHunter } from './people.ts';
import { saveNone, saveWeight } from './weights.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

/** Stage and part of each weight of a row. */
const WEIGHED: readonly (readonly [ImportField, string, string])[] = [
  ['live', 'live', 'carcass'],
  ['dressed', 'dressed', 'carcass'],
  ['received', 'received', 'carcass'],
  ['hanging', 'hanging', 'carcass'],
  ['wholeCuts', 'cut', 'whole cuts'],
  ['trim', 'cut', 'trim'],
  ['fatSaved', 'cut', 'fat saved'],
  ['sinew', 'cut', 'sinew'],
  ['bone', 'cut', 'bone'],
  ['cutAway', 'cut', 'damage'],
  ['takeHome', 'packed', 'package'],
];
const PARTS: readonly ImportField[] = ['wholeCuts', 'trim', 'fatSaved', 'sinew', 'bone', 'cutAway'];
/** Tolerance of two scales and a wet hide: parts may outweigh their animal by this much. */
const MAX_OVER = 1.02;

export function animalImporter(session: Session): RowImporter {
  const people = peopleOf(session);
  const today = session.today();
  const seen = rowsSeen();
  return {
    check({ texts, weights }, report, doubt, row) {
      seen.look(texts, row, doubt);
      const received = texts.receivedOn;
      if (received && compareDates(received, today) > 0)
        report('receivedOn', new ProblemError('invalid', 'date.future'));
      if (received && texts.killDate && compareDates(texts.killDate, received) > 0)
        report('killDate', new ProblemError('invalid', 'date.killed-after-received'));
      if (received && texts.releasedOn && compareDates(texts.releasedOn, received) < 0)
        report('releasedOn', new ProblemError('invalid', 'sheet.released-before'));
      if (texts.releasedOn && compareDates(texts.releasedOn, today) > 0)
        report('releasedOn', new ProblemError('invalid', 'date.future'));
      doubtDays(texts, today, doubt);
      checkWeights(session, texts, weights, report, doubt);
    },
    write(values, writing) {
      const { texts, weights, counts, none } = values;
      const { known, isNew } = people.of(values);
      if (known.id === null) known.id = writing.hunter(writeHunter(session, values, writing.at));
      if (isNew) writing.count.hunters += 1;
      const received = texts.receivedOn ?? today;
      const { id } = session.book.animals.add(
        {
          season: seasonOf(received, session.settings.seasonStartsMonth),
          hunter_id: known.id,
          deliverer_name: '',
          deliverer_address: '',
          species: texts.species ?? '',
          sex: (texts.sex ?? 'unknown') as AnimalRow['sex'],
          age: (texts.age ?? 'unknown') as AnimalRow['age'],
          brought: (texts.brought ?? 'whole') as AnimalRow['brought'],
          legs: 'unknown',
          origin: (texts.origin ?? 'hunter') as AnimalRow['origin'],
          licence: texts.licence ?? '',
          tag: texts.tag ?? '',
          kill_date: texts.killDate ?? null,
          kill_area: texts.killArea ?? '',
          received_on: received,
          promised_on: null,
          condition: texts.condition ?? '',
          damage: texts.damage ?? '',
          detail: weights.bone || none.includes('bone') ? 'detailed' : 'quick',
          created_at: writing.at,
        },
        [],
      );
      writing.animal(id);
      session.book.imports.finish(id, texts.oldNumber ?? '');
      for (const [field, stage, part] of WEIGHED) {
        const reading = weights[field];
        if (reading)
          saveWeight(session, writing, { animalId: id, stage, part, reading, count: counts.packages ?? 1 });
        if (none.includes(field)) saveNone(session, writing, id, part);
      }
      if (texts.releasedOn)
        session.book.records.release({
          animalId: id, to: texts.releasedTo || (texts.name ?? ''), on: texts.releasedOn, note: '', unpaidBy: null,
          at: writing.at, by: writing.by,
        }); // prettier-ignore
    },
    count(values) {
      const { isNew } = people.of(values);
      return {
        hunters: isNew ? 1 : 0,
        animals: 1,
        weighings: Object.keys(values.weights).length,
        none: values.none.length,
        known: 0,
      };
    },
  };
}

/** Possible but unlikely dates: a mistyped one moves its animal to another season. */
function doubtDays(
  { receivedOn, killDate, releasedOn }: Partial<Record<ImportField, string>>,
  today: string,
  doubt: (field: ImportField, problem: ProblemError) => void,
): void {
  if (!receivedOn) return;
  const far = (field: ImportField, code: string | null, date: string): void => {
    if (code) doubt(field, new ProblemError('conflict', code, { with: { date } }));
  };
  far('receivedOn', farCode(receivedOn, today, { ago: IMPORTED_DAYS }), receivedOn);
  if (killDate && farCode(killDate, receivedOn, { ago: KILLED_DAYS }))
    far('killDate', 'date.killed-long-before', killDate);
  if (releasedOn) far('releasedOn', farCode(releasedOn, receivedOn, { ahead: LEFT_DAYS }), releasedOn);
}

function checkWeights(
  session: Session,
  texts: Partial<Record<ImportField, string>>,
  weights: Partial<Record<ImportField, Reading>>,
  report: (field: ImportField, problem: ProblemError) => void,
  doubt: (field: ImportField, problem: ProblemError) => void,
): void {
  const grams = (field: ImportField): number => (weights[field] ? readingGrams(weights[field]) : 0);
  const onHook = isWholeCarcass(texts.brought);
  const order: ImportField[] = onHook ? ['hanging', 'received'] : ['received', 'hanging'];
  const base = order.find((field) => weights[field]);
  if (!base) return;
  const whole = grams(base);
  for (const field of [...PARTS, 'takeHome'] as const)
    if (grams(field) > whole * MAX_OVER)
      report(
        field,
        new ProblemError('invalid', 'weight.more-than-animal', {
          with: { grams: grams(field), baseGrams: whole, base },
        }),
      );
  const parts = PARTS.reduce((total, field) => total + grams(field), 0);
  if (parts > whole * MAX_OVER)
    doubt(
      base,
      new ProblemError('conflict', 'sheet.parts-over', { with: { grams: parts, baseGrams: whole } }),
    );
  // The take-home would be its whole cuts alone: see `take_home` of the season's sums.
  if (
    weights.takeHome &&
    weights.wholeCuts &&
    !weights.trim &&
    grams('takeHome') > grams('wholeCuts') * MAX_OVER
  )
    report('wholeCuts', new ProblemError('invalid', 'sheet.cuts-alone'));
  const species =
    texts.species === undefined ? undefined : session.species.all.find(({ code }) => code === texts.species);
  if (species && !canHang(whole, texts.brought ?? 'whole', species)) {
    const { least, most } = species.hangingGrams;
    doubt(
      base,
      new ProblemError('conflict', 'weight.unlikely', {
        with: { grams: whole, part: 'carcass', low: least, high: most },
      }),
    );
  }
}
