/** The shop's terms at drop-off, as a hunter reads and signs them. */
import * as v from 'valibot';
import { shopLanguage, writtenFor, type HunterLanguage } from '../../words/hunter-language.ts';
import type { ShopSettings } from '../contract/contract.ts';
import type { Session } from './session.ts';
import { readSetting } from './settings.ts';

/** Key of the moment at which the terms were last changed. */
const TERMS_SINCE = 'dropOffTermsSince';

interface Terms {
  /** Empty: the shop has none. */
  text: string;
  language: HunterLanguage;
  /** Null: from before the moment was noted. */
  since: string | null;
}

/** In the hunter's language where the shop wrote them in it, else in the shop's own. */
export function dropOffTerms(
  { settings, book }: Pick<Session, 'settings' | 'book'>,
  language: HunterLanguage,
): Terms {
  const written = writtenFor(settings.dropOffTermsIn, language);
  return {
    ...(written ?? { text: settings.dropOffTerms, language: shopLanguage(settings.locale) }),
    since: readSetting(book, TERMS_SINCE, v.string()) ?? null,
  };
}

/** Notes the moment if the terms are among the changed settings. */
export function noteTermsChange(session: Session, changed: Partial<ShopSettings>): void {
  if ('dropOffTerms' in changed || 'dropOffTermsIn' in changed)
    session.book.settings.put(TERMS_SINCE, session.now());
}
