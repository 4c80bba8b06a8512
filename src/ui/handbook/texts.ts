/** The words of the handbook's pages, fetched when one is opened. */
import type { Language } from '../../words/languages.ts';
import { fetchTexts } from '../texts/fetched.ts';
import { plainLetters } from '../texts/plain-letters.ts';
import type { HandbookPage } from './pages.ts';

export interface Question {
  page: HandbookPage;
  code: string;
  ask: string;
  steps: readonly string[];
}

export interface PageTexts {
  title: string;
  about: string;
  questions: readonly Question[];
}

export type Handbook = Readonly<Record<HandbookPage, PageTexts>>;

/** @throws Error when the texts cannot be fetched */
export const fetchHandbook = async (language: Language): Promise<Handbook> =>
  handbookFrom(await fetchTexts(language));

/** Reads `PAGE.title`, `PAGE.about`, `PAGE.how.CODE.ask` and `PAGE.how.CODE.steps`, one step a line. */
export function handbookFrom(texts: Readonly<Record<string, string>>): Handbook {
  const pages: Partial<Record<HandbookPage, PageTexts>> = {};
  for (const key of Object.keys(texts).filter((one) => one.endsWith('.title'))) {
    const page = key.slice(0, -'.title'.length) as HandbookPage;
    const asks = Object.keys(texts).filter((one) => one.startsWith(`${page}.how.`) && one.endsWith('.ask'));
    pages[page] = {
      title: texts[key] ?? '',
      about: texts[`${page}.about`] ?? '',
      questions: asks.map((ask) => {
        const code = ask.slice(`${page}.how.`.length, -'.ask'.length);
        return {
          page,
          code,
          ask: texts[ask] ?? '',
          steps: (texts[`${page}.how.${code}.steps`] ?? '').split('\n'),
        };
      }),
    };
  }
  return pages as Handbook;
}

/**
 * The questions of all pages in which every typed word occurs, without regard to case and accents.
 * @example findQuestions(handbook, 'DISCOUNT')[0]?.code // 'discount'
 */
export function findQuestions(handbook: Handbook, typed: string): Question[] {
  const wanted = plainLetters(typed).split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return [];
  return Object.values(handbook).flatMap(({ title, questions }) =>
    questions.filter(({ ask, steps }) => {
      const words = plainLetters([title, ask, ...steps].join(' '));
      return wanted.every((word) => words.includes(word));
    }),
  );
}
