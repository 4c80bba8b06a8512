/** Labels of an animal that several hunters share: each package names its hunter. */
import type { AnimalPage } from '../../bridge/contract.ts';
import type { LabelRun } from './package-label.ts';

type SharedAnimal = Pick<AnimalPage, 'ticket' | 'packages'> & {
  sharers: readonly Pick<AnimalPage['sharers'][number], 'hunterId' | 'name' | 'counts'>[];
};

/**
 * Divides the runs of an animal among its hunters as the desk divided its packages. Its own runs are in the order of
 * its rows of packages; those of a batch are assigned one by one. Runs of other animals are unchanged.
 */
export function sharedRuns(
  runs: readonly LabelRun[],
  { ticket, packages, sharers }: SharedAnimal,
): LabelRun[] {
  if (sharers.length === 0) return [...runs];
  const own = packages.map((row, at) => ({ row, at })).filter(({ row }) => row.batch === null);
  let next = 0;
  /** The number of packages of a batch that each hunter has yet to receive. */
  const left = new Map<string, number[]>();
  return runs.flatMap((run) => {
    if (run.label.ticket !== ticket) return [run];
    const { batch } = run.label;
    if (batch === null) {
      const at = own[next++]?.at ?? -1;
      return divided(
        run,
        sharers.map(({ counts }) => counts[at] ?? 0),
        sharers,
      );
    }
    const due = left.get(batch) ?? dueOf(batch);
    left.set(batch, due);
    let open = run.copies;
    const counts = due.map((count, i) => {
      const assigned = Math.min(count, open);
      open -= assigned;
      due[i] = count - assigned;
      return assigned;
    });
    return divided(run, counts, sharers);
  });

  function dueOf(batch: string): number[] {
    const at = packages.findIndex((row) => row.batch === batch);
    return sharers.map(({ counts }) => counts[at] ?? 0);
  }
}

function divided(run: LabelRun, counts: readonly number[], sharers: SharedAnimal['sharers']): LabelRun[] {
  return sharers.flatMap(({ hunterId, name }, i) => {
    const copies = counts[i] ?? 0;
    return copies > 0
      ? [{ key: `${run.key} ${hunterId}`, copies, label: { ...run.label, hunter: name } }]
      : [];
  });
}
