import { text } from '../../words/compiled/window/handbook.ts';
import { handbookPages, type HandbookPage } from './pages.ts';

export interface Question {
  page: HandbookPage;
  code: string;
  ask: string;
  steps: readonly string[];
}

type Asked = Readonly<Record<string, { ask: string; steps: string }>>;

/** The questions of a page in their order, in the window's language. */
export function questionsOf(page: HandbookPage): Question[] {
  const asked: Asked = text.page[page].how;
  return Object.entries(asked).map(([code, { ask, steps }]) => ({
    page,
    code,
    ask,
    steps: steps.split('\n'),
  }));
}

/**
 * The questions of all pages in which every typed word occurs, without regard to case and accents.
 * @example findQuestions('DISCOUNT')[0]?.code // 'discount'
 */
export function findQuestions(typed: string): Question[] {
  const wanted = plain(typed).split(/\s+/).filter(Boolean);
  if (wanted.length === 0) return [];
  return (Object.keys(handbookPages) as HandbookPage[])
    .flatMap(questionsOf)
    .filter(({ page, ask, steps }) => {
      const words = plain([text.page[page].title, ask, ...steps].join(' '));
      return wanted.every((word) => words.includes(word));
    });
}

const plain = (text: string): string =>
  text
    .normalize('NFD')
    .replace(/\p{Mn}/gu, '')
    .toLocaleLowerCase();
