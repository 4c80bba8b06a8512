/** The language of menus and dialogs: that of the window, noted for the next start. */
import { words } from '../src/words/compiled/languages/shell.ts';
import { keepAll } from '../src/words/keep.ts';
import { isLanguage, SOURCE_LANGUAGE, type Language } from '../src/words/languages.ts';
import { currentLanguage, speakWith } from '../src/words/speech.ts';
import { noted, readNote, writeNote } from './note-file.ts';

/** Speaks the language of the last start's window; call it once, before the first dialog. */
export function startLanguage(noteFile: string): void {
  keepAll(words);
  const last = noted(readNote(noteFile), 'language');
  speak(isLanguage(last) ? last : SOURCE_LANGUAGE);
}

/** Speaks the language that a window says. Returns whether it is another one; an unknown one changes nothing. */
export function takeLanguage(said: unknown, noteFile: string): boolean {
  if (!isLanguage(said) || said === currentLanguage()) return false;
  speak(said);
  writeNote(noteFile, { language: said });
  return true;
}

function speak(language: Language): void {
  speakWith({ language: () => language });
}
