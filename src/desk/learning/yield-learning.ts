/** Learns yields from the book, and learns no more than what changed: of seasons that are over, summaries are kept. */
import type { Book } from '../../book/book.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { YieldObservation } from '../../core/yield/yield.ts';
import { animalTaught, ruleOf, seasonTaught, type AnimalTaught, type SeasonTaught } from './season-taught.ts';
import { knowledgeFrom, type YieldKnowledge } from './yield-knowledge.ts';

export interface YieldLearning {
  /** As the book stands. */
  knowledge(profiles: readonly SpeciesProfile[], running: number): YieldKnowledge;
  /** How often it was learned anew. */
  readonly times: number;
  /** Weights, orders or the stage of this animal may have changed. */
  changed(animalId: number): void;
  /** Anything may have changed. */
  forget(): void;
}

type LearnedBook = Pick<Book, 'animals' | 'sums' | 'seasonsTaught'>;

export function yieldLearning(book: LearnedBook): YieldLearning {
  /** Animals of seasons that are looked at one by one, by season and id. */
  const live = new Map<number, Map<number, AnimalTaught>>();
  /** Summaries of seasons that are over. */
  const over = new Map<number, SeasonTaught>();
  const changed = new Set<number>();
  let known: YieldKnowledge | undefined;
  let times = 0;

  function animalsOf(season: number, profiles: readonly SpeciesProfile[]): Map<number, AnimalTaught> {
    let animals = live.get(season);
    if (!animals) {
      animals = new Map(book.sums.finished(season).map((row) => [row.id, animalTaught(row, profiles)]));
      live.set(season, animals);
    }
    return animals;
  }

  /** Looks at changed animals again. An animal that is not finished, and was not, changes nothing. */
  function lookAgain(profiles: readonly SpeciesProfile[]): void {
    for (const id of changed) {
      const season = book.animals.get(id)?.season;
      if (season === undefined) continue;
      const row = book.sums.finishedOne(id);
      const animals = live.get(season);
      if (!row && animals && !animals.has(id)) continue;
      if (row) animals?.set(id, animalTaught(row, profiles));
      else animals?.delete(id);
      over.delete(season);
      known = undefined;
    }
    changed.clear();
  }

  function learn(profiles: readonly SpeciesProfile[], running: number): YieldKnowledge {
    times++;
    const seasons = book.seasonsTaught.seasons();
    if (seasons.some((season) => season !== running && !over.has(season)))
      summarise(seasons, profiles, running);
    const learnedFrom = seasons.map((season) => ({
      season,
      ...(over.get(season) ?? seasonTaught(animalsOf(season, profiles).values())),
    }));
    return knowledgeFrom(
      {
        seasons: learnedFrom,
        ofAnimal(id) {
          const row = book.sums.finishedOne(id);
          return row && animalTaught(row, profiles);
        },
        ofSeason(season) {
          const told = new Map<number, YieldObservation>();
          for (const [id, { observation }] of animalsOf(season, profiles))
            if (observation) told.set(id, observation);
          return told;
        },
      },
      profiles,
    );
  }

  /**
   * The running season changes with every animal. Of the others the book's summaries are taken; where it has none yet
   * (`summariseNext`), the season is summarised here, in memory.
   */
  function summarise(seasons: readonly number[], profiles: readonly SpeciesProfile[], running: number): void {
    const kept = book.seasonsTaught.kept(ruleOf(profiles)) as Map<number, SeasonTaught>;
    for (const season of seasons) {
      if (season === running || over.has(season)) continue;
      over.set(season, kept.get(season) ?? seasonTaught(animalsOf(season, profiles).values()));
      live.delete(season);
    }
  }

  return {
    knowledge(profiles, running) {
      lookAgain(profiles);
      return (known ??= learn(profiles, running));
    },
    get times() {
      return times;
    },
    changed: (animalId) => void changed.add(animalId),
    forget() {
      live.clear();
      over.clear();
      changed.clear();
      known = undefined;
    },
  };
}
