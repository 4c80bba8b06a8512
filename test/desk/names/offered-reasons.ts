/** The reasons that windows and stations offer or give by themselves, by their codes, as they say them. */
import { text as belongings } from '../../../src/words/compiled/window/belongings.ts';
import { text as charges } from '../../../src/words/compiled/window/charges.ts';
import { text as leaving } from '../../../src/words/compiled/window/leaving.ts';
import { text as moves } from '../../../src/words/compiled/window/moves.ts';
import { text as rail } from '../../../src/words/compiled/window/rail.ts';
import { text as drafts } from '../../../src/words/compiled/window/station/drafts.ts';
import { text as weighings } from '../../../src/words/compiled/window/weighings.ts';
import { text as common } from '../../../src/words/compiled/shared/common.ts';
import type { Language } from '../../../src/words/languages.ts';
import { inLanguage } from '../../../src/words/area.ts';

export function offeredReasons(language: Language): Readonly<Record<string, string>> {
  return {
    ...inLanguage(weighings, language).reasons,
    ...inLanguage(rail, language).reasons,
    undone: inLanguage(common, language).undone,
    moveUndone: inLanguage(moves, language).undone,
    processed: inLanguage(leaving, language).processed,
    chargeAs: inLanguage(charges, language).chargeAsReason,
    stillHere: inLanguage(belongings, language).voidEnd,
    draftLeft: inLanguage(drafts, language).reasons.left,
    draftTwice: inLanguage(drafts, language).reasons.twice,
  };
}
