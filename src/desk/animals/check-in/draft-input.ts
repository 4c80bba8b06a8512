/** What a hunter's own check-in may send. */
import * as v from 'valibot';
import { HUNTER_LANGUAGES } from '../../../words/hunter-language.ts';
import { by, instructions, needed, optionalDate, sex, text } from '../../input/input.ts';
import { MAX_TERMS } from '../../session/settings.ts';
import { slipCode } from './slip-code.ts';

/** A long name drawn slowly, thinned to a point every few pixels, takes about 3,000. Our choice, no source. */
const MAX_SIGNATURE = 12_000;
/** Lines of whole numbers only, so that nothing else can stand in what is drawn later. */
const STROKES = /^(?:M\d{1,4},\d{1,4}(?:L\d{1,4},\d{1,4})+)*$/;

/** Path data of SVG in a box of 1000 × 300; empty: none. */
const signature = v.optional(
  v.pipe(
    v.string('signature.unreadable'),
    v.maxLength(MAX_SIGNATURE, 'signature.too-long'),
    v.regex(STROKES, 'signature.unreadable'),
  ),
  '',
);

export const language = v.picklist(HUNTER_LANGUAGES, 'choice.language');

const draft = {
  language,
  name: needed(200),
  phone: text(60),
  tag: text(80),
  species: needed(40),
  sex,
  killDate: optionalDate,
  killArea: text(200),
  /** Absent: the hunter wants to be asked at the counter. */
  instructions: v.optional(instructions),
  /** The slip that hangs with the animal. */
  slip: v.optional(slipCode),
};

export const newDraft = v.object({
  ...draft,
  licence: text(80),
  /** The terms as the hunter read them. */
  terms: text(MAX_TERMS),
  signature,
  by,
});

/** On a hunter's own phone, over a line that others may read: no license number, and no signature that could be copied. */
export const phoneDraft = v.object(draft);
