/** What other shops taught this one: the lessons in use, in the shape that each model takes them. */
import type { Book } from '../../book/book.ts';
import { fatFromSiblings, type FatLesson } from '../../core/fat/siblings.ts';
import type { CorrelatedFatEstimate } from '../../core/fat/estimates.ts';
import type { FromOthers } from '../contract/contract.ts';
import type { SpeciesShelf } from '../supplied/species-shelf.ts';
import { kindKey, SHOP } from './fat-estimates.ts';
import { readLessonText, type LessonText } from './lesson-text.ts';

/** The lists stay the same objects until the lessons change: models are cached by them. */
export interface Teachers {
  readonly lessons: readonly LessonText[];
  readonly yields: readonly LessonText['yields'][];
  readonly losses: readonly LessonText['losses'][];
  /** How many animals or batches of how many shops each model starts from; null where nobody taught it. */
  readonly from: { readonly [M in 'yields' | 'fat' | 'losses']: FromOthers | null };
  /** Where the fat of trim starts; undefined where nobody taught it. */
  fat(shelf: Pick<SpeciesShelf, 'all'>): readonly CorrelatedFatEstimate[] | undefined;
}

/** Read again once a lesson was taken in, set aside or put back. */
export function teachersOf({ lessons, changes }: Pick<Book, 'lessons' | 'changes'>): () => Teachers {
  let known: { version: number; teachers: Teachers } | undefined;
  return () => {
    const version = changes.version('lesson');
    if (known?.version !== version)
      known = { version, teachers: teachersFrom(lessons.used().map(({ body }) => readLessonText(body))) };
    return known.teachers;
  };
}

function teachersFrom(lessons: readonly LessonText[]): Teachers {
  const fats = lessons.flatMap(({ fat }): FatLesson[] => (fat ? [fat] : []));
  const starts = new WeakMap<SpeciesShelf['all'], readonly CorrelatedFatEstimate[]>();
  return {
    lessons,
    yields: lessons.map(({ yields }) => yields).filter((list) => list.length > 0),
    losses: lessons.map(({ losses }) => losses).filter((list) => list.length > 0),
    from: {
      yields: counted(lessons.map(({ yields }) => yields.map(({ animals }) => animals))),
      fat: counted(lessons.map(({ fat }) => fat?.animals ?? [])),
      losses: counted(lessons.map(({ losses }) => losses.map(({ n }) => n))),
    },
    fat({ all }) {
      if (fats.length === 0) return undefined;
      let start = starts.get(all);
      if (!start) {
        const published = all.map(({ code: species, trimFat }) => ({ species, trimFat }));
        starts.set(all, (start = fatFromSiblings(published, fats, { shop: SHOP.id, kind: kindKey })));
      }
      return start;
    },
  };
}

/** @param told for each shop the sizes of what it tells of */
function counted(told: readonly (readonly number[])[]): FromOthers | null {
  const telling = told.filter((sizes) => sizes.length > 0);
  if (telling.length === 0) return null;
  return { shops: telling.length, n: telling.flat().reduce((sum, size) => sum + size, 0) };
}
