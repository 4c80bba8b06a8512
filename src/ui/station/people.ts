/** Signing in and out at a station. PINs are checked by the desk and kept nowhere here. */
import { DeskAway } from '../../bridge/client/station/requests.ts';
import type { Answer, Problem } from '../../bridge/contract.ts';
import { useShop } from '../stores/shop.ts';
import { useLine } from './line.ts';

const AWAY: Problem = { kind: 'missing', code: 'station.away' };

/** @returns what was wrong; null once somebody is signed in */
export async function signIn(typed: string, pin: string): Promise<Problem | null> {
  const line = useLine();
  if (!line.requests) return AWAY;
  try {
    const answer = await line.requests.post<Answer<{ person: string; initials: string }>>('/person', {
      initials: typed,
      pin,
    });
    if (!answer.ok) return answer.problem;
    line.signedIn = { initials: answer.value.initials, token: answer.value.person };
    useShop().by = answer.value.initials;
    return null;
  } catch (error) {
    if (error instanceof DeskAway) return error.problem ?? AWAY;
    throw error;
  }
}

/** At the desk too, if it can be reached; otherwise it forgets who was signed in by itself. */
export async function signOut(): Promise<void> {
  const line = useLine();
  const token = line.signedIn?.token;
  line.signedIn = null;
  try {
    if (token) await line.requests?.post('/person/out', { person: token });
  } catch (error) {
    if (!(error instanceof DeskAway)) throw error;
  }
}
