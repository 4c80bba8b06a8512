/** What is proven of a made batch by the loads that it was in. Never that a product is safe. */
import type { MadeRow } from '../../book/records/smokehouse/made.ts';
import type { Decision, Proof, RecipeBody } from '../contract/contract.ts';
import type { DeviationRow } from '../../book/records/smokehouse/load-logs.ts';
import type { Session } from '../session/session.ts';
import { startOf } from './made-batch.ts';
import { hostsIn } from './meat.ts';
import { ofWeighed, weighedGrams } from './weighed.ts';

export function decisionOf(row: DeviationRow): Decision {
  const { id, decided, decided_by: decidedBy, note, at, by, void_reason: voided } = row;
  return { id, decided, decidedBy, note, at, by, voided };
}

/** The rows and hosts that a verdict on a load rests on; another one once any of it changed. */
export function basisOf(session: Session, loadId: number): string {
  const hosts = hostsInLoad(session, loadId);
  return [session.book.loadLogs.basis(loadId), ...hosts].join(' ');
}

/** Names of Trichinella hosts in any batch of a load. */
export function hostsInLoad(session: Session, loadId: number): string[] {
  const batches = session.book.loads.batches(loadId);
  const found = batches.flatMap(({ made_id: of }) => {
    const made = session.book.made.get(of);
    return made ? [...(startOf(session, of)?.hosts ?? []), ...hostsIn(session, made.batch_id)] : [];
  });
  return [...new Set(found)].sort();
}

/**
 * The last load's newest verdict counts. An earlier load whose cook did not meet the figures stands against it until somebody decided to
 * cook again.
 */
export function proofOf(session: Session, made: MadeRow, body: RecipeBody): Proof {
  if (body.finish === 'raw')
    return { cook: 'not-needed', cooling: 'not-needed', loads: [], readyToEat: false, missing: [] };
  const loads = session.book.loads.loadsOf(made.id).map(({ id, name }) => {
    const verdict = session.book.loads.verdict(id);
    const decided = session.book.loadLogs.decidedOfLoad(id).filter((one) => one.void_reason === null);
    return {
      id,
      name,
      verdict,
      decided,
      fresh: verdict !== undefined && verdict.basis === basisOf(session, id),
    };
  });
  const last = loads.at(-1);
  const standing = last?.fresh ? last.verdict : undefined;
  const cook = standing?.cook ?? 'not-proven';
  const cooling = standing?.cooling ?? 'not-proven';
  const missing: Proof['missing'] = [];
  const lack = (code: string, told: Record<string, string | number> = {}): void =>
    void missing.push({ code, with: told });
  if (!last) lack('proof.no-load');
  else if (!last.verdict) lack('proof.not-judged', { load: last.name });
  else if (!last.fresh) lack('proof.changed', { load: last.name });
  if (standing && cook !== 'meets-figures') lack('proof.cook', { load: last?.name ?? '' });
  if (standing && cooling !== 'meets-figures') lack('proof.cooling', { load: last?.name ?? '' });
  for (const { name, verdict, decided } of loads.slice(0, -1))
    if (verdict?.cook !== 'meets-figures' && !decided.some((one) => one.decided === 'cook again'))
      lack('proof.earlier', { load: name });
  const decisions = [
    ...(last?.decided ?? []),
    ...session.book.loadLogs.decidedOfMade(made.id).filter((one) => one.void_reason === null),
  ];
  const against = decisions.find(({ decided }) => decided !== 'authority');
  if (against) lack('proof.decided', { decided: against.decided });
  if (hasStopWeighed(session, made)) lack('proof.cure');
  return {
    cook,
    cooling,
    loads: loads.map(({ id, name, fresh, decided }) => ({
      id,
      name,
      fresh,
      again: decided.some((one) => one.decided === 'cook again'),
    })),
    readyToEat: body.readyToEat && missing.length === 0,
    missing: body.readyToEat ? missing : [],
  };
}

function hasStopWeighed(session: Session, { id }: MadeRow): boolean {
  const started = startOf(session, id);
  if (!started) return true;
  const { findings } = ofWeighed(started, weighedGrams(session.book.madeWeights.weighed(id)));
  return findings.some(({ weight }) => weight === 'stop');
}
