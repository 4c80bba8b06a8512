import * as v from 'valibot';
import { languages, SOURCE_LANGUAGE, type Language } from '../../words/languages.ts';

/** The language of the window that asks, for files that the desk writes; en-US if it says none. */
export const language = v.optional(
  v.picklist(Object.keys(languages) as Language[], 'input.invalid'),
  SOURCE_LANGUAGE,
);
