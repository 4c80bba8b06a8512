/** The history of an animal in sentences. */
import type { HistoryChange, HistoryEntry, HistoryKind } from '../../../../bridge/contract.ts';
import { text as leavingText } from '../../../../words/compiled/window/leaving.ts';
import { text as belongingText } from '../../../../words/compiled/window/belongings.ts';
import { wordFor } from '../../codes.ts';
import { text as words } from '../../../../words/compiled/shared/common.ts';
import type { Format } from '../../format.ts';
import { text as holdText } from '../../../../words/compiled/window/hold.ts';
import { plural } from '../../plural.ts';
import { typedWithUnit } from '../../typed.ts';

export const historyText = {
  title: 'History',
  none: 'Nothing is written yet.',
  more: (n: number) => `Show all ${n}`,
  less: 'Show the newest only',
  changed: (field: string, before: string, after: string) => `${field}: ${before} → ${after}`,
  why: (reason: string) => `Why: ${reason}`,
  nothing: 'nothing',
};

const FIELDS: Readonly<Record<string, string>> = {
  stage: 'Where it is',
  detail: 'How it is weighed',
  species: 'Species',
  sex: 'Sex',
  age: 'Age',
  hunter_id: 'Owner',
  given_to: 'Handed to',
  released_on: 'Handed over on',
  origin: 'Origin',
  licence: 'License',
  tag: 'Tag or permit',
  legs: 'Lower legs',
  brought: 'Brought as',
  parts: 'Pieces',
  promised_on: 'Promised for',
  kill_date: 'Kill date',
  kill_area: 'Kill area',
  received_on: 'Date received',
  season: 'Season',
  ticket: 'Ticket',
  deliverer_name: 'Brought by',
  deliverer_address: 'Address of who brought it',
  name: 'Name',
  phone: 'Phone',
  email: 'Email',
  address: 'Address',
  refusesPooling: 'Never pooled',
  cutsShare: 'Share kept as cuts',
  fat: 'Fat to add',
  targetFat: 'Target fat',
  grindProduct: 'Ground into',
  pattyGrams: 'Patty',
  packageGrams: 'Package',
  alsoGround: 'Ground besides',
  pricedExtras: 'Extras',
  extras: 'Special requests',
  note: 'Note',
};
const DAYS: ReadonlySet<string> = new Set(['kill_date', 'received_on', 'released_on', 'promised_on']);
const CODES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  stage: words.stage,
  sex: words.sex,
  age: words.age,
  legs: words.legs,
  brought: words.brought,
  detail: { detailed: 'every part', quick: 'hanging and packed only' },
  origin: { hunter: 'hunted', farm: 'inspected farm' },
  fat: { none: 'none', own: 'its own' },
};

/** @example changeText({ field: 'tag', before: '', after: 'E-1017' }, format) // 'Tag or permit: nothing → E-1017' */
export function changeText({ field, of, before, after }: HistoryChange, format: Format): string {
  const name = of ?? FIELDS[field] ?? wordFor({}, field);
  return historyText.changed(name, valueText(field, before, format), valueText(field, after, format));
}

function valueText(field: string, value: string | number | null, format: Format): string {
  if (value === null || value === '') return historyText.nothing;
  if (typeof value === 'number')
    return field.endsWith('Grams') ? format.mass(value) : format.share(value, field === 'cutsShare' ? 0 : 1);
  if (DAYS.has(field)) return format.longDay(value);
  return CODES[field]?.[value] ?? value;
}

const LEFT: ReadonlySet<unknown> = new Set(['released', 'disposed', 'canceled']);
type Facts = HistoryEntry['facts'];
type Message = (facts: Facts, format: Format, entry: HistoryEntry) => string;

/** The content of a weight: 'trim 120 lb less 1.2', '12 × Steaks, 20 lb'. */
function weightText({ stage, part, primal, product, count, typed, unit, tare }: Facts): string {
  const piece = String(primal ?? '').toLowerCase();
  const name =
    stage === 'packed'
      ? `${count} × ${product},`
      : stage === 'primal'
        ? piece
        : stage === 'cut' || stage === 'grinder'
          ? wordFor(words.part, String(part)).toLowerCase() + (piece && ` of ${piece}`)
          : wordFor(words.weighStage, String(stage)).toLowerCase();
  const less = tare ? ` less ${tare}` : '';
  return `${name} ${typedWithUnit(String(typed), unit as 'lb')}${less}`;
}

/** The previous place of a moved weight. */
function placeText({ fromStage: stage, fromPart: part, fromPrimal: primal }: Facts): string {
  const piece = String(primal ?? '').toLowerCase();
  if (stage === 'primal') return piece;
  return stage === 'cut'
    ? wordFor(words.part, String(part)).toLowerCase() + (piece && ` of ${piece}`)
    : wordFor(words.weighStage, String(stage)).toLowerCase();
}
const isSamePlace = (facts: Facts): boolean =>
  facts.fromStage === facts.stage && facts.fromPart === facts.part && facts.fromPrimal === facts.primal;

const kindName = (kind: Facts[string] | undefined): string => wordFor(belongingText.kinds, String(kind));
const money = (facts: Facts, key: string, format: Format): string =>
  format.money(Number(facts[key]), String(facts.currency));
const ended = (text: string): string => (/[.!?…]$/.test(text) ? text : `${text}.`);

const SENTENCES: Readonly<Record<HistoryKind, Message>> = {
  'taken-in': () => 'Taken in.',
  'brought-in': ({ file }) => `Brought in from the file ${file}.`,
  changed: (_, format, { changes }) => {
    const [only] = changes.length === 1 ? changes : [];
    if (only?.field === 'stage' && only.after === 'canceled') return 'The intake was canceled.';
    if (only?.field === 'stage' && LEFT.has(only.before))
      return `Reopened: back from “${valueText('stage', only.before, format)}” to “${valueText('stage', only.after, format)}”.`;
    if (only?.field === 'stage')
      return `Moved on from “${valueText('stage', only.before, format)}” to “${valueText('stage', only.after, format)}”.`;
    return 'Its record was changed.';
  },
  'owner-changed': ({ act }) =>
    act === 'void' ? 'The owner’s details were taken out of the book.' : 'The owner’s details were changed.',
  quote: ({ quote }) => `It came of quote ${quote}.`,
  instructed: (_, _format, { changes }) =>
    changes.length > 0 ? 'The cutting instructions were changed.' : 'Cutting instructions were written down.',
  hung: ({ cooler, place }) => `Hung in ${[cooler, place].filter(Boolean).join(', ')}.`,
  weighed: (facts) => `Weighed${facts.batch ? ` into batch ${facts.batch}` : ''}: ${weightText(facts)}.`,
  'weight-corrected': (facts) => {
    const { was, wasUnit, wasTare, ...now } = facts;
    const before = typedWithUnit(String(was), wasUnit as 'lb') + (wasTare ? ` less ${wasTare}` : '');
    return `Weight corrected: ${weightText(now)}, before ${before}.`;
  },
  'weight-moved': (facts) => `Weight moved: ${weightText(facts)}, entered as ${placeText(facts)}.`,
  'weight-moved-here': (facts) => {
    const as = placeText(facts);
    return `Weight moved here from ${facts.ticket}: ${weightText(facts)}${isSamePlace(facts) ? '' : `, entered there as ${as}`}.`;
  },
  'weight-moved-away': (facts) => `Weight moved to ${facts.ticket}: ${weightText(facts)}.`,
  'weight-voided': (facts) => `Weight voided: ${weightText(facts)}.`,
  'none-stated': ({ part }) => `Stated: no ${wordFor(words.part, String(part)).toLowerCase()}.`,
  'none-voided': ({ part }) =>
    `“No ${wordFor(words.part, String(part)).toLowerCase()}” was voided: it is unknown again.`,
  held: ({ sample }, _, { reason }) =>
    `Put on hold: ${wordFor(words.hold, reason).toLowerCase()}${sample ? `, number ${sample}` : ''}.`,
  'hold-ended': ({ outcome, note }) => {
    const came = holdText.outcomes[outcome as keyof typeof holdText.outcomes];
    const said = note ? ` ${ended(String(note))}` : '';
    return outcome === 'positive'
      ? `The result was positive; the hold stays.${said}`
      : `The hold ended: ${came.toLowerCase()}.${said}`;
  },
  'test-result': ({ result, sample, lab, on, note }, format) => {
    const about = holdText.resultOf({
      sample: String(sample),
      lab: String(lab),
      day: format.longDay(String(on)),
    });
    const said = note ? ` ${ended(String(note))}` : '';
    if (result === 'none') return `The test result was voided; the hold waits again.${said}`;
    const does = result === 'positive' ? 'the hold stays' : 'the hold ended';
    return `Test result: ${holdText.results[result as 'positive'].toLowerCase()} (${about}); ${does}.${said}`;
  },
  batched: ({ batch, product, others }) =>
    `Put into batch ${batch} (${product}), ${Number(others) === 0 ? 'by itself' : `with ${plural(Number(others), 'other animal', 'other animals')}`}.`,
  'fat-moved': ({ kind, grams }, format) => {
    const amount = format.mass(Math.abs(Number(grams)));
    if (kind === 'counted')
      return `Its saved fat was counted: ${amount} ${Number(grams) < 0 ? 'less' : 'more'} than the book had.`;
    return `Saved fat ${kind}: ${amount}.`;
  },
  billed: (facts, format) => `Bill ${facts.number} was made: ${money(facts, 'totalMinor', format)}.`,
  'bill-voided': (facts, format) =>
    `Bill ${facts.number} of ${money(facts, 'totalMinor', format)} was voided.`,
  paid: (facts, format) => {
    const amount = money(facts, 'amountMinor', format);
    return facts.kind === 'refund'
      ? `${amount} given back, ${facts.method}.`
      : `${facts.kind === 'deposit' ? 'Deposit' : 'Payment'} of ${amount} taken, ${facts.method}.`;
  },
  'payment-voided': (facts, format) =>
    `The ${facts.kind} of ${money(facts, 'amountMinor', format)} (${facts.method}) was voided.`,
  donated: ({ program, grams, confirmation, on }, format) =>
    `${leavingText.donated({ mass: format.mass(Number(grams)), program: String(program), day: format.longDay(String(on)) })}${confirmation ? `, ${leavingText.confirmationIs({ number: String(confirmation) })}` : ''}.`,
  'donation-voided': ({ program, grams }, format) =>
    `The donation of ${format.mass(Number(grams))} to ${program} was voided.`,
  'as-came': () => 'It goes back as it came.',
  'processed-after-all': () => 'It is processed after all.',
  notice: ({ step, how, on, note }, format) =>
    `${leavingText.given({ step: step as 'first', how: how as 'call', day: format.longDay(String(on)) })}${note ? `: ${note}` : ''}.`,
  'notice-voided': ({ step }) => leavingText.noticeVoided({ step: step as 'first' }),
  shared: ({ basis, parts, hunters }) =>
    Number(hunters) === 1 ? `${parts} has all of it.` : `Shared by ${basis}: ${parts}.`,
  'part-released': ({ hunter, to, on, unpaidBy }, format) =>
    `The part of ${hunter} was handed over to ${to} on ${format.longDay(String(on))}${unpaidBy ? `, unpaid; ${unpaidBy} answers for it` : ''}.`,
  'part-voided': ({ hunter }) => `The part of ${hunter} is here again.`,
  'belonging-came': ({ kind, tag, place, note }) =>
    `Came with it: ${[String(kind), tag && `tag ${tag}`, place, note].filter(Boolean).join(', ')}.`,
  'belonging-voided': ({ kind }) => `Voided: ${kind} did not come with it.`,
  'belonging-went': ({ kind, went, name, receipt, on, note }, format) =>
    `${kindName(kind)} ${belongingText.wentTo({ went: went as 'hunter', name: String(name) })} on ${format.longDay(String(on))}${receipt ? `, ${belongingText.receipt({ number: String(receipt) })}` : ''}${note ? `, ${note}` : ''}.`,
  'belonging-back': ({ kind }) => `${kindName(kind)} is here again: it had not left.`,
  called: ({ text }) => `Call: ${ended(String(text))}`,
  'affected-note': ({ deed, ticket, note }) =>
    `Affected by the positive result of ${ticket}: ${holdText.deeds[deed as 'called'].toLowerCase()}.${note ? ` ${ended(String(note))}` : ''}`,
  'affected-note-voided': ({ deed, ticket }) =>
    `Voided: “${holdText.deeds[deed as 'called'].toLowerCase()}”, about the positive result of ${ticket}.`,
  released: ({ to, on, unpaidBy, note }, format) =>
    [
      `Handed over to ${to} on ${format.longDay(String(on))}${unpaidBy ? `, unpaid; ${unpaidBy} answers for it` : ''}.`,
      note ? ended(String(note)) : '',
    ]
      .filter(Boolean)
      .join(' '),
  disposed: ({ disposedOf, how, on }, format) =>
    `Disposed of on ${format.longDay(String(on))}: ${disposedOf}. ${ended(String(how))}`,
};

/**
 * An event as one sentence; its changes and reason are shown separately.
 * @example historySentence({ what: 'hung', facts: { cooler: 'Cold room 1', place: 'hook 12' }, … }, format) // 'Hung
 * in Cold room 1, hook 12.'
 */
export function historySentence(entry: HistoryEntry, format: Format): string {
  return SENTENCES[entry.what](entry.facts, format, entry);
}

/** The changes that the sentence does not include. */
export function changesBeside({ what, changes }: HistoryEntry): HistoryChange[] {
  return what === 'changed' && changes.length === 1 && changes[0]?.field === 'stage' ? [] : changes;
}

/** The reason, unless the sentence includes it. */
export function reasonBeside({ what, reason, facts }: HistoryEntry): string {
  return what === 'held' || reason === '' || reason === facts.kind ? '' : historyText.why(reason);
}
