/** The desk's words in the language of the window that asks; all languages are there at once. */
import { inLanguage } from './area.ts';
import { words } from './compiled/languages/desk.ts';
import { keepAll } from './keep.ts';

keepAll(words);

export { inLanguage };
