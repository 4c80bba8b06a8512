/** What shops teach each other. */

/** `lessons.get`. */
export interface LessonsPage {
  /** What this shop could give now: animals of kinds with at least five, and batches of products with at least five. */
  animals: number;
  batches: number;
  /** The day on which it gave last; null: never. */
  givenOn: string | null;
  /** Taken in, those in use first. */
  taken: TakenLesson[];
}

export interface TakenLesson {
  id: number;
  /** What this shop calls the other. */
  label: string;
  animals: number;
  batches: number;
  /** The day on which the other shop wrote it, and that on which it was taken in. */
  madeOn: string;
  takenOn: string;
  by: string;
  /** False: it was set aside. */
  used: boolean;
}

/** `lessons.give`: a file to save. */
export interface GivenLessons {
  name: string;
  text: string;
  animals: number;
  batches: number;
}

/** What other shops add to an answer; null where they add nothing. */
export interface FromOthers {
  shops: number;
  /** Animals, or batches. */
  n: number;
}
