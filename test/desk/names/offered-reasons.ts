/** The reasons that windows and stations offer or give by themselves, by their codes, as they say them. */
import { text as belongings } from '../../../src/words/compiled/window/belongings.ts';
import { text as charges } from '../../../src/words/compiled/window/charges.ts';
import { text as leaving } from '../../../src/words/compiled/window/leaving.ts';
import { text as moves } from '../../../src/words/compiled/window/moves.ts';
import { text as photos } from '../../../src/words/compiled/window/photos.ts';
import { text as rail } from '../../../src/words/compiled/window/rail.ts';
import { text as drafts } from '../../../src/words/compiled/window/station/drafts.ts';
import { text as weighings } from '../../../src/words/compiled/window/weighings.ts';
import { text as common } from '../../../src/words/compiled/shared/common.ts';
import type { Language } from '../../../src/words/languages.ts';
import { inLanguage } from '../../../src/words/area.ts';
import { expect } from 'vitest';

export function offeredReasons(language: Language): Readonly<Record<string, string>> {
  const { twice, wrongAnimal, wrongPart, mistyped, again, undone, statedByMistake, correctionUndone } =
    inLanguage(weighings, language).reasons;
  const ofCooler = inLanguage(rail, language).reasons;
  const move = inLanguage(moves, language);
  const draft = inLanguage(drafts, language).reasons;
  const photo = inLanguage(photos, language).whys;
  const same = { mistyped: ofCooler.mistyped, undone: inLanguage(common, language).undone, wrongAnimal: move.wrongAnimal, wrongPart: move.wrongPart }; // prettier-ignore
  expect({ mistyped, undone, wrongAnimal, wrongPart }).toEqual(same);
  return {
    'weighed-twice': twice,
    'wrong-animal': wrongAnimal,
    'wrong-part': wrongPart,
    mistyped,
    'weighed-again': again,
    undone,
    'entered-by-mistake': statedByMistake,
    'correction-undone': correctionUndone,
    'wrong-cooler': ofCooler.otherCooler,
    'move-undone': move.undone,
    'processed-after-all': inLanguage(leaving, language).processed,
    'no-price-line': inLanguage(charges, language).chargeAsReason,
    'still-here': inLanguage(belongings, language).voidEnd,
    'hunter-left': draft.left,
    'typed-twice': draft.twice,
    'another-animal': photo.wrongAnimal,
    'not-clear': photo.unclear,
  };
}
