/** The fields of each kind of table, with the headings by which they are recognized. */

import type { ImportField, ImportKind } from '../contract/contract.ts';

export interface FieldRule {
  code: ImportField;
  reads: 'text' | 'date' | 'weight' | 'word' | 'count';
  /** Required in every row. */
  needed?: true;
  /** A weight for which 0 or “none” states that there was none of this part. */
  orNone?: true;
  /** Maximum length of the text. */
  most?: number;
  /** Matches a folded heading. */
  heading: RegExp;
}

const PERSON: readonly FieldRule[] = [
  { code: 'name', reads: 'text', needed: true, most: 200, heading: /^((hunter|customer|owner|client)( s)?( full)? ?(name)?|name|full name)$/ },
  { code: 'phone', reads: 'text', most: 60, heading: /^(phone|telephone|tel|cell|mobile)\b/ },
  { code: 'email', reads: 'text', most: 200, heading: /^e ?mail/ },
  { code: 'address', reads: 'text', most: 500, heading: /^(home |mailing |postal )?address/ },
  { code: 'licence', reads: 'text', most: 80, heading: /^(hunting )?licen[cs]e|^permit/ },
]; // prettier-ignore

/** The fields of each kind of table, in reading order. */
export const FIELDS: Readonly<Record<ImportKind, readonly FieldRule[]>> = {
  hunters: [
    ...PERSON,
    { code: 'pooling', reads: 'word', heading: /^(never pooled|own meat only|refuses pooling)$/ },
  ],
  animals: [
    { code: 'receivedOn', reads: 'date', needed: true, heading: /^(date|day|(date )?(received|taken in|brought in|in|dropped off|drop off)( on)?|(drop off|intake|received) date|date in)$/ },
    { code: 'species', reads: 'word', needed: true, heading: /^(species|animal|game|kind|type|what)$/ },
    ...PERSON,
    { code: 'oldNumber', reads: 'text', most: 40, heading: /^(old (number|no|ticket)|ticket|tag ticket|(ticket|order|job|carcass|animal|our) ?(number|no|nr)?|number|no|nr)$/ },
    { code: 'sex', reads: 'word', heading: /^(sex|gender|m f)$/ },
    { code: 'age', reads: 'word', heading: /^age/ },
    { code: 'brought', reads: 'word', needed: true, heading: /^(brought( in)?( as)?|came( in)? as|condition in|form)$/ },
    { code: 'origin', reads: 'word', heading: /^(origin|wild or farm)$/ },
    { code: 'tag', reads: 'text', most: 80, heading: /^((state |game |carcass |harvest )?tag( (number|no|nr))?|confirmation( (number|no))?)$/ },
    { code: 'killDate', reads: 'date', heading: /^((date )?(killed|shot|harvested)( on)?|(kill|harvest) date|date of (kill|harvest))$/ },
    { code: 'killArea', reads: 'text', most: 200, heading: /^((kill )?(area|unit|county|zone)|where( killed)?|killed where|(hunt|game) (unit|area)|location)$/ },
    { code: 'live', reads: 'weight', heading: /^live\b/ },
    { code: 'dressed', reads: 'weight', heading: /^(field )?dressed\b/ },
    { code: 'received', reads: 'weight', heading: /^((received|gross|in|intake) (weight|wt)|(weight|wt) (received|in)|as received)\b/ },
    { code: 'hanging', reads: 'weight', heading: /^(hanging|hang|carcass|hook|rail)( (weight|wt))?\b|^(weight|wt)$/ },
    { code: 'wholeCuts', reads: 'weight', heading: /^(whole )?(cuts|muscle)|^steaks?( and)?( roasts?)?/ },
    { code: 'trim', reads: 'weight', heading: /^(trim|grind|ground|burger)( (weight|wt))?\b/ },
    { code: 'fatSaved', reads: 'weight', orNone: true, heading: /^(own )?fat( saved)?\b/ },
    { code: 'sinew', reads: 'weight', orNone: true, heading: /^(sinew|silver ?skin)/ },
    { code: 'bone', reads: 'weight', orNone: true, heading: /^bones?\b/ },
    { code: 'cutAway', reads: 'weight', orNone: true, heading: /^(damage|waste|blood ?shot)( cut( away)?)?( (weight|wt))?$/ },
    { code: 'takeHome', reads: 'weight', heading: /^(take ?home|packaged|packed|finished|boneless|meat( out)?|yield|out|final|total meat)( (meat|weight|wt))?$/ },
    { code: 'packages', reads: 'count', heading: /^(packages|packs|pkgs|boxes)$|^(number|no) of pack/ },
    { code: 'condition', reads: 'text', most: 500, heading: /^(condition|notes?|remarks?|comments?)$/ },
    { code: 'damage', reads: 'text', most: 500, heading: /^(shot damage|damage notes?|wound)/ },
    { code: 'releasedOn', reads: 'date', heading: /^((date )?(picked up|released|handed over|out|collected)( on)?|(pick up|pickup|release) date|date out)$/ },
    { code: 'releasedTo', reads: 'text', most: 200, heading: /^((picked up|released|handed|collected) (by|to)|handed over to)$/ },
  ],
  weighings: [
    { code: 'ticket', reads: 'text', needed: true, most: 40, heading: /^(old (number|no|ticket)|ticket|(ticket|order|job|carcass|animal) ?(number|no|nr)?|number|no|nr)$/ },
    { code: 'what', reads: 'word', needed: true, heading: /^(what|part|stage|kind|type|cut)$/ },
    { code: 'weight', reads: 'weight', needed: true, orNone: true, heading: /^(weight|wt|net|gross|pounds|kilos)\b/ },
    { code: 'tare', reads: 'weight', heading: /^(tare|container|tub)/ },
    { code: 'product', reads: 'text', most: 60, heading: /^product/ },
    { code: 'packages', reads: 'count', heading: /^(count|packages|packs|pieces)$/ },
    { code: 'note', reads: 'text', most: 500, heading: /^(notes?|remarks?|comments?)$/ },
  ],
}; // prettier-ignore

/** Normalizes headings and words for comparison: lower-case letters and digits with single spaces. */
export function folded(text: string): string {
  return text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}.]+/gu, ' ')
    .replace(/\.(?!\d)/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}
