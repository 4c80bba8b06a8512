/** The history of an animal in sentences. */
import type { HistoryChange, HistoryEntry, HistoryKind } from '../../bridge/contract.ts';
import { text as belongingText } from '../../words/compiled/window/belongings.ts';
import { text } from '../../words/compiled/window/books/history.ts';
import { text as holdText } from '../../words/compiled/window/hold.ts';
import { text as leavingText } from '../../words/compiled/window/leaving.ts';
import { wordFor } from '../texts/codes.ts';
import type { Format } from '../texts/format.ts';
import { methodName } from '../texts/payment-methods.ts';
import { typedWithUnit } from '../texts/typed.ts';
import { valueText } from './history-values.ts';

const LEFT: ReadonlySet<unknown> = new Set(['released', 'disposed', 'canceled']);
type Facts = HistoryEntry['facts'];
type Message = (facts: Facts, format: Format, entry: HistoryEntry) => string;

/** The content of a weight: 'trim 120 lb less 1.2', '12 × Steaks, 20 lb'. */
function weightText({ stage, part, primal, product, count, typed, unit, tare }: Facts): string {
  const shown = typedWithUnit(String(typed), unit as 'lb');
  return text.weight({
    ...{ what: whatOf(stage, part), piece: worded(primal), typed: shown, tare: worded(tare) },
    ...{ count: Number(count ?? 0), product: String(product) },
  });
}

/** The previous place of a moved weight; '' if it stayed at the same one. */
function placeText(facts: Facts): string {
  const { fromStage, fromPart, fromPrimal, stage, part, primal } = facts;
  if (fromStage === stage && fromPart === part && fromPrimal === primal) return '';
  return text.place({ what: whatOf(fromStage, fromPart), piece: worded(fromPrimal) });
}

/** A part where parts are weighed, else the stage. */
const whatOf = (stage: Facts[string] | undefined, part: Facts[string] | undefined) =>
  (stage === 'cut' || stage === 'grinder' ? part : stage) as 'trim';
const worded = (fact: Facts[string] | undefined): string => String(fact ?? '');
const kindName = (kind: Facts[string] | undefined): string => wordFor(belongingText.kinds, String(kind));
const money = (facts: Facts, key: string, format: Format): string =>
  format.money(Number(facts[key]), String(facts.currency));
/** A note as a sentence of its own after another one. */
const noteAfter = (sentence: string, note: Facts[string] | undefined): string =>
  note ? `${sentence} ${ended(String(note))}` : sentence;
const ended = (note: string): string => (/[.!?…]$/.test(note) ? note : `${note}.`);

function changedText(format: Format, { changes }: HistoryEntry): string {
  const [only] = changes.length === 1 ? changes : [];
  if (only?.field !== 'stage') return text.edited;
  if (only.after === 'canceled') return text.canceled;
  const ends = {
    before: valueText('stage', only.before, format),
    after: valueText('stage', only.after, format),
  };
  return LEFT.has(only.before) ? text.reopened(ends) : text.moved(ends);
}

function testText({ result, sample, lab, on, note }: Facts, format: Format): string {
  const day = format.longDay(String(on));
  const about = holdText.resultOf({ sample: String(sample), lab: String(lab), day });
  const sentence = result === 'none' ? text.testVoided : text.tested({ result: result as 'positive', about });
  return noteAfter(sentence, note);
}

const SENTENCES: Readonly<Record<HistoryKind, Message>> = {
  'taken-in': () => text.taken,
  'brought-in': ({ file }) => text.imported({ file: String(file) }),
  changed: (_, format, entry) => changedText(format, entry),
  'owner-changed': ({ act }) => (act === 'void' ? text.ownerRemoved : text.ownerEdited),
  quote: ({ quote }) => text.quoted({ quote: String(quote) }),
  instructed: (_, _format, { changes }) => (changes.length > 0 ? text.ordersEdited : text.ordersEntered),
  hung: ({ cooler, place }) => text.hung({ cooler: String(cooler), place: worded(place) }),
  weighed: (facts) => text.weighed({ batch: worded(facts.batch), weight: weightText(facts) }),
  'weight-corrected': (facts) =>
    text.corrected({
      weight: weightText(facts),
      before: typedWithUnit(String(facts.was), facts.wasUnit as 'lb'),
      tare: worded(facts.wasTare),
    }),
  'weight-moved': (facts) => text.weightMoved({ weight: weightText(facts), place: placeText(facts) }),
  'weight-moved-here': (facts) =>
    text.movedHere({ ticket: String(facts.ticket), weight: weightText(facts), place: placeText(facts) }),
  'weight-moved-away': (facts) => text.movedAway({ ticket: String(facts.ticket), weight: weightText(facts) }),
  'weight-voided': (facts) => text.weightVoided({ weight: weightText(facts) }),
  'none-stated': ({ part }) => text.noneStated({ part: part as 'bone' }),
  'none-voided': ({ part }) => text.noneVoided({ part: part as 'bone' }),
  held: ({ sample }, _, { reason }) => text.held({ reason, sample: worded(sample) }),
  'hold-ended': ({ outcome, note }) => noteAfter(text.holdEnded({ outcome: outcome as 'cleared' }), note),
  'test-result': testText,
  batched: ({ batch, product, others }) =>
    text.batched({ batch: String(batch), product: String(product), others: Number(others) }),
  'fat-moved': ({ kind, grams }, format) => {
    const amount = format.mass(Math.abs(Number(grams)));
    if (kind === 'counted') return text.fatCounted({ less: Number(grams) < 0, amount });
    return text.fatMoved({ kind: kind as 'thrown out', amount });
  },
  billed: (facts, format) =>
    text.billed({ number: String(facts.number), money: money(facts, 'totalMinor', format) }),
  'bill-voided': (facts, format) =>
    text.billVoided({ number: String(facts.number), money: money(facts, 'totalMinor', format) }),
  paid: (facts, format) => text.paid(payment(facts, format)),
  'payment-voided': (facts, format) => text.paymentVoided(payment(facts, format)),
  donated: ({ program, grams, confirmation, on }, format) =>
    text.donated({
      ...{ mass: format.mass(Number(grams)), program: String(program) },
      ...{ day: format.longDay(String(on)), confirmation: worded(confirmation) },
    }),
  'donation-voided': ({ program, grams }, format) =>
    text.donationVoided({ mass: format.mass(Number(grams)), program: String(program) }),
  'as-came': () => text.asCame,
  'processed-after-all': () => text.processed,
  notice: ({ step, how, on, note }, format) => {
    const day = format.longDay(String(on));
    const given = leavingText.given({ step: step as 'first', how: how as 'call', day });
    return text.notice({ given, note: worded(note) });
  },
  'notice-voided': ({ step }) => leavingText.noticeVoided({ step: step as 'first' }),
  shared: ({ basis, parts, hunters }) =>
    text.shared({ basis: basis as 'percent', parts: String(parts), hunters: Number(hunters) }),
  'part-released': (facts, format) =>
    text.partReleased({ hunter: String(facts.hunter), ...handedOver(facts, format) }),
  'part-voided': ({ hunter }) => text.partVoided({ hunter: String(hunter) }),
  'belonging-came': ({ kind, tag, place, note }) =>
    text.belongingCame({
      kind: kindName(kind),
      tag: worded(tag),
      place: worded(place),
      note: worded(note),
    }),
  'belonging-voided': ({ kind }) => text.belongingVoided({ kind: kindName(kind) }),
  'belonging-went': ({ kind, went, name, receipt, on, note }, format) =>
    text.belongingWent({
      kind: kindName(kind),
      went: belongingText.wentTo({ went: went as 'hunter', name: String(name) }),
      day: format.longDay(String(on)),
      receipt: worded(receipt),
      note: worded(note),
    }),
  'belonging-back': ({ kind }) => text.belongingBack({ kind: kindName(kind) }),
  photographed: ({ kind }) => text.photographed({ kind: kind as 'tag' }),
  'photo-voided': ({ kind }) => text.photoVoided({ kind: kind as 'tag' }),
  'photo-removed': ({ kind }) => text.photoRemoved({ kind: kind as 'tag' }),
  called: ({ text: note }) => text.called({ note: ended(String(note)) }),
  'affected-note': ({ deed, ticket, note }) =>
    noteAfter(text.affected({ deed: deed as 'called', ticket: String(ticket) }), note),
  'affected-note-voided': ({ deed, ticket }) =>
    text.affectedVoided({ deed: deed as 'called', ticket: String(ticket) }),
  released: (facts, format) => noteAfter(text.released(handedOver(facts, format)), facts.note),
  disposed: ({ disposedOf, how, on }, format) =>
    text.disposed({
      day: format.longDay(String(on)),
      what: String(disposedOf),
      how: ended(String(how)),
    }),
};

function payment(facts: Facts, format: Format) {
  return {
    kind: facts.kind as 'refund',
    money: money(facts, 'amountMinor', format),
    method: methodName(String(facts.method)),
  };
}

function handedOver({ to, on, unpaidBy }: Facts, format: Format) {
  return { to: String(to), day: format.longDay(String(on)), unpaidBy: worded(unpaidBy) };
}

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
export function reasonBeside({ what, reason }: HistoryEntry): string {
  return what === 'held' || reason === '' ? '' : text.why({ reason });
}
