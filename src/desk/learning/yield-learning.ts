/** Learns yields from the book incrementally. Past seasons enter by their stored summaries. */
import type { Book } from '../../book/book.ts';
import type { Topic } from '../../book/changes/topics.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { YieldObservation } from '../../core/yield/yield.ts';
import {
  summariseAnimal,
  summaryKey,
  summariseSeason,
  type AnimalSummary,
  type SeasonSummary,
} from './season-summary.ts';
import { knowledgeFrom, type OtherShops, type YieldKnowledge } from './yield-knowledge.ts';

interface YieldLearning {
  /** The current model. */
  knowledge(profiles: readonly SpeciesProfile[], running: number, shops: OtherShops): YieldKnowledge;
}

/** Without a change of these nothing else is learned: sums of finished animals, and the orders beside them. */
const TEACHING: readonly Topic[] = ['finished', 'order'];

type LearnedBook = Pick<Book, 'animals' | 'sums' | 'seasonSummaries' | 'changes'>;

export function yieldLearning(book: LearnedBook): YieldLearning {
  /** Summaries of single animals, by season and id, for seasons processed animal by animal. */
  const live = new Map<number, Map<number, AnimalSummary>>();
  /** Summaries of past seasons. */
  const over = new Map<number, SeasonSummary>();
  let mark = book.changes.mark();
  let known: | { profiles: readonly SpeciesProfile[]; running: number; shops: OtherShops; knowledge: YieldKnowledge } | undefined; // prettier-ignore

  function animalsOf(season: number, profiles: readonly SpeciesProfile[]): Map<number, AnimalSummary> {
    let animals = live.get(season);
    if (!animals) {
      animals = new Map(book.sums.finished(season).map((row) => [row.id, summariseAnimal(row, profiles)]));
      live.set(season, animals);
    }
    return animals;
  }

  function reset(): void {
    live.clear();
    over.clear();
    known = undefined;
  }

  /** Updates the changed animals. An animal that neither is nor was finished changes nothing. */
  function refresh(profiles: readonly SpeciesProfile[]): void {
    const since = book.changes.since(mark);
    mark = book.changes.mark();
    if (!since) return reset();
    if (!TEACHING.some((topic) => since.topics.has(topic))) return;
    for (const [id, seasons] of since.animals) {
      const row = book.sums.finishedOne(id);
      const now = book.animals.get(id)?.season;
      for (const season of seasons) {
        const animals = live.get(season);
        if (row && season === now) animals?.set(id, summariseAnimal(row, profiles));
        else if (animals && !animals.delete(id)) continue;
        over.delete(season);
        known = undefined;
      }
    }
  }

  function learn(profiles: readonly SpeciesProfile[], running: number, shops: OtherShops): YieldKnowledge {
    const seasons = book.seasonSummaries.seasons();
    if (seasons.some((season) => season !== running && !over.has(season)))
      summarise(seasons, profiles, running);
    const learnedFrom = seasons.map((season) => ({
      season,
      ...(over.get(season) ?? summariseSeason(animalsOf(season, profiles).values())),
    }));
    return knowledgeFrom(
      {
        seasons: learnedFrom,
        ofAnimal(id) {
          const row = book.sums.finishedOne(id);
          return row && summariseAnimal(row, profiles);
        },
        ofSeason(season) {
          const byId = new Map<number, YieldObservation>();
          for (const [id, { observation }] of animalsOf(season, profiles))
            if (observation) byId.set(id, observation);
          return byId;
        },
      },
      profiles,
      shops,
    );
  }

  /**
   * The current season changes with every animal. For the others the book's summaries are used; a season without
   * one (`summariseNext`) is summarised here, in memory.
   */
  function summarise(seasons: readonly number[], profiles: readonly SpeciesProfile[], running: number): void {
    const stored = book.seasonSummaries.stored(summaryKey(profiles)) as Map<number, SeasonSummary>;
    for (const season of seasons) {
      if (season === running || over.has(season)) continue;
      over.set(season, stored.get(season) ?? summariseSeason(animalsOf(season, profiles).values()));
      live.delete(season);
    }
  }

  return {
    knowledge(profiles, running, shops) {
      if (known && known.profiles !== profiles) reset();
      refresh(profiles);
      if (known?.running !== running || known.shops !== shops)
        known = { profiles, running, shops, knowledge: learn(profiles, running, shops) };
      return known.knowledge;
    },
  };
}
