import { hasInjectionContext, inject, provide, type InjectionKey, type Ref } from 'vue';
import type { Language } from '../../words/languages.ts';

type Spoken = Readonly<Ref<Language>>;
const SPOKEN: InjectionKey<Spoken> = Symbol('spoken');

/** Makes every part below the one being set up speak this language, whatever the window speaks. It must be loaded. */
export function speakBelow(language: Spoken): void {
  provide(SPOKEN, language);
}

/** The language set above the part that is being set up or rendered; undefined where none is, or outside of parts. */
export function spokenHere(): Spoken | undefined {
  return hasInjectionContext() ? inject(SPOKEN, undefined) : undefined;
}
