/** The desk as the screens of a station see it: live answers while the line is up, the last known ones while it is not. */
import { ANYTHING_CHANGED, openListeners } from '../../bridge/client/listeners.ts';
import { OTHER_OPENING } from '../../bridge/client/other-opening.ts';
import { plainCopy } from '../../bridge/client/plain.ts';
import type { Answer, Bridge, Changed, ShopView, StationEvent } from '../../bridge/contract.ts';
import { OPENING_HEADER, PERSON_HEADER } from '../../bridge/wire.ts';
import { DeskAway, ShutOut, type StationRequests } from '../../bridge/client/station/requests.ts';

import { keepSeen, seenOf } from './kept/seen.ts';

/** The answer to a question that only the desk can answer, while it is away. */
const AWAY: Answer<never> = { ok: false, problem: { kind: 'missing', code: 'station.away' } };

export interface DeskNow {
  isConnected: boolean;
  /** The opening of the book at the desk, which differs each time that the desk starts. */
  opening: string | null;
  /** The book and its restorings. For screens this is the opening: a desk that starts again drops nothing that is typed. */
  lineage: string | null;
  /** Of a person who signed in. */
  person: string | null;
}

export interface BridgeTold {
  /** The desk no longer knows who is signed in. */
  personEnded(): void;
  /** A call got no answer. */
  lost(): void;
}

export interface StationBridge extends Bridge {
  /** Passes on what the desk told; null: anything may have changed. */
  tell(event: Extract<StationEvent, { kind: 'changed' }> | null): void;
}

/**
 * @param now how the line is
 * @param enter enters anew, as after a start of the desk
 */
export function bridgeOfStation(
  requests: StationRequests,
  now: () => DeskNow,
  enter: () => Promise<void>,
  on: BridgeTold,
): StationBridge {
  const listeners = openListeners();

  function ask(name: string, input: unknown): Promise<Answer<unknown>> {
    const { opening, person } = now();
    return requests.post(`/call/${name}`, input, {
      ...(opening !== null && { [OPENING_HEADER]: opening }),
      ...(person !== null && { [PERSON_HEADER]: person }),
    });
  }

  async function live(name: string, input: unknown): Promise<Answer<unknown>> {
    const answer = await ask(name, input);
    if (answer.ok || answer.problem.code !== OTHER_OPENING.problem.code) return answer;
    await enter();
    return ask(name, input);
  }

  /** The desk's answer; null while it is away. */
  async function answerOf(name: string, input: unknown): Promise<Answer<unknown> | null> {
    if (!now().isConnected) return null;
    try {
      return await live(name, input);
    } catch (error) {
      if (!(error instanceof DeskAway || error instanceof ShutOut)) throw error;
      on.lost();
      return null;
    }
  }

  const call = async (name: string, input: unknown, target: string | null): Promise<Answer<unknown>> => {
    const copy = plainCopy(input);
    if (!copy.ok) return copy;
    if (target !== null && target !== now().lineage) return OTHER_OPENING;
    const plain: unknown = JSON.parse(copy.json);
    const answer = await answerOf(name, plain);
    if (answer === null) {
      const seen = await seenOf(name, plain);
      return seen === undefined ? AWAY : { ok: true, value: seen };
    }
    if (!answer.ok) {
      if (answer.problem.code === 'person.sign-in') on.personEnded();
      return answer;
    }
    const value = name === 'shop.get' ? withLineage(answer.value as ShopView) : answer.value;
    await keepSeen(name, plain, value);
    return { ok: true, value };
  };

  function withLineage(view: ShopView): ShopView {
    return { ...view, opening: now().lineage ?? view.opening };
  }

  return {
    call: call as Bridge['call'],
    on: (_event, listener) => listeners.add(listener),
    tell(event) {
      const { stale = null, opening = null } = event ?? {};
      if (event === null) listeners.notify(ANYTHING_CHANGED);
      else
        listeners.notify({ call: null, stale, opening: opening === null ? null : now().lineage } as Changed);
    },
  };
}
