/**
 * Trade terms, each explained to a new hand in one or two sentences. `source` says where the term is used in this
 * sense, or that it is common practice. A test requires every term to be used in the window.
 */
interface TermText {
  name: string;
  says: string;
  source: string;
}

const COMMON = 'common practice, no source';
const WYOMING =
  'Wyoming Game and Fish Department, “How much meat can I get from a deer?” (wgfd.wyo.gov, read on Nov 26, 2026)';

export const terms = {
  batch: {
    name: 'Batch',
    says: 'What goes through the grinder in one go, of one hunter or of several. It has a number, so that every package can be led back to the animals in it.',
    source: COMMON,
  },
  'back-fat': {
    name: 'Back fat',
    says: 'Firm white pork fat from under the skin of the back. It is mild, cuts clean and is what is mostly added to game.',
    source: COMMON,
  },
  boned: {
    name: 'Boneless',
    says: 'Meat that the hunter has already taken off the bone. There is no hanging weight and no bone to come; what comes in is the weight to share out.',
    source: COMMON,
  },
  'break-even': {
    name: 'Break-even fee',
    says: 'The fee at which the shop earns nothing and loses nothing: wages, running costs and wrapping are just paid.',
    source: 'A term of bookkeeping; ' + COMMON,
  },
  damage: {
    name: 'Damage',
    says: 'What is cut away and thrown: bloodshot meat around the wound, dirt, dried crust. Nobody eats it, but it is weighed, so that the hunter can be told.',
    source: WYOMING,
  },
  'dressed-weight': {
    name: 'Field-dressed weight',
    says: 'The animal with its insides out, its skin and head still on, as most come from the field. Most weigh it with the lower legs on; where they are off at knee and hock, say so: more of that weight then hangs.',
    source:
      'Legs on: “Biology and Management of White-tailed Deer in Alabama”, the state’s deer manual (copy read on Nov 28, 2026). Legs off: The Elk Carcass, B-594R, University of Wyoming, 2003',
  },
  'fat-test': {
    name: 'Fat test',
    says: 'A small sample of the batch is measured for its fat. It shows whether the batch came out as planned, and teaches how fat the trim of this shop is.',
    source: COMMON,
  },
  gambrel: {
    name: 'Gambrel',
    says: 'The bar that spreads the hind legs, on which a carcass is hung by its hocks.',
    source: COMMON,
  },
  'hanging-weight': {
    name: 'Hanging weight',
    says: 'The carcass on the hook: skinned, without insides, head and lower legs. Fees and take-home are based on it.',
    source: WYOMING,
  },
  hold: {
    name: 'Hold',
    says: 'This animal may not go out yet, mostly because a sample was sent for testing. It is kept apart, and is never handed over before the result.',
    source: COMMON + '; your wildlife agency has the last word',
  },
  lean: {
    name: 'Lean',
    says: 'The meat of a batch before fat is added. It has a little fat of its own, which is counted too.',
    source: COMMON,
  },
  'least-cost': {
    name: 'Cheapest blend',
    says: 'Where several fats could be used, the amounts of each that reach the target for the least money, from what is on hand. Some call it a least-cost blend.',
    source: COMMON,
  },
  'live-weight': {
    name: 'Live weight',
    says: 'The whole animal as it stood, insides and all. It is mostly a guess, so a quote from it has the widest range.',
    source: WYOMING,
  },
  lot: {
    name: 'Lot',
    says: 'Fat that came in at one time from one place: one delivery, or the fat saved from one animal. With its number it can be traced and used up in order.',
    source: COMMON,
  },
  'eight-in-ten': {
    name: '8 in 10',
    says: 'Of ten such animals, eight should come out within these two weights, one below and one above. The more you weigh, the closer they get.',
    source: 'How this program words its ranges',
  },
  'own-fat': {
    name: 'Own fat',
    says: 'Fat trimmed from the hunter’s own animal and kept to go back into that hunter’s grind, instead of bought fat. Wild boar and bear carry enough of it; the fat of deer is mostly thrown, as it tastes of tallow.',
    source: COMMON,
  },
  pass: {
    name: 'Pass',
    says: 'Once through the grinder. Meat is often ground twice, coarse and then fine, with the fat added before the second time.',
    source: COMMON,
  },
  plate: {
    name: 'Plate',
    says: 'The disc with holes at the mouth of the grinder. Small holes grind fine, large holes coarse; the size is that of one hole.',
    source: COMMON,
  },
  primal: {
    name: 'Primal',
    says: 'One of the large pieces that a carcass is first parted into, such as shoulder, loin or hind leg. Steaks and roasts are cut from them.',
    source: COMMON,
  },
  quarters: {
    name: 'Quarters',
    says: 'The animal comes in as legs and loose pieces instead of one carcass, as it was carried out. The bone is still in.',
    source: COMMON,
  },
  shrink: {
    name: 'Shrink',
    says: 'Weight that nobody took: water that dries off on the hook and drips on the table. It is why the parts weigh a little less than the carcass did.',
    source: COMMON,
  },
  sinew: {
    name: 'Sinew and silverskin',
    says: 'Tendons, and the tough white skin over the muscles. They do not soften in the pan and clog the grinder, so they are trimmed off and thrown.',
    source: COMMON,
  },
  suet: {
    name: 'Suet',
    says: 'Hard beef fat from around the kidneys. It keeps its shape when ground and tastes of beef.',
    source: COMMON,
  },
  tag: {
    name: 'Tag or permit',
    says: 'The hunter’s own number from the wildlife agency for this animal. It is not the ticket, which is yours.',
    source: COMMON + '; your wildlife agency has the last word',
  },
  'take-home': {
    name: 'Take-home',
    says: 'What the hunter carries out: whole cuts and ground meat in packages, with any fat that was added.',
    source: COMMON,
  },
  'target-fat': {
    name: 'Target fat',
    says: 'How much of the finished grind shall be fat, in percent. The fat that the meat has of its own counts towards it.',
    source: COMMON,
  },
  ticket: {
    name: 'Ticket',
    says: 'The number that your shop gives an animal at intake. It stands on the tag at the hook, on every package and on the bill, and is never used again.',
    source: COMMON,
  },
  trim: {
    name: 'Trim',
    says: 'Clean meat too small for steaks and roasts, put aside for the grinder. What is thrown away is not trim.',
    source: COMMON,
  },
  'whole-cuts': {
    name: 'Whole cuts',
    says: 'What leaves as a piece: steaks, roasts, chops, stew meat. Everything else that is good is ground.',
    source: COMMON,
  },
} as const satisfies Record<string, TermText>;

export type TermCode = keyof typeof terms;

export const termText = {
  ask: 'Says what this word means',
  all: 'All words of the trade',
  allHint: 'What is meant by trim, hold, own fat and the rest.',
  here: 'Trade words on this page',
  heading: 'Words of the trade',
  intro: 'As this program uses them. Where your shop says it otherwise, your word is as good.',
  source: 'Where it is from',
  print: 'Print',
} as const;
