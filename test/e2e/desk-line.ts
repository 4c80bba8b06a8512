import type { CallInput, CallName, CallOutput } from '../../src/bridge/contract.ts';
import { OPENING_HEADER } from '../../src/bridge/wire.ts';
import type { Answer } from '../../src/desk/contract/problem.ts';

/**
 * A connection to the desk of a served program, used to look up what to open. Calls apply to whichever book is open.
 * @param address an unused one: it is valid once
 */
export async function deskLine(address: string) {
  const { origin, hash } = new URL(address);
  let opening = '';
  const post = async (path: string, body: unknown, pass = ''): Promise<unknown> => {
    const response = await fetch(origin + path, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        origin,
        [OPENING_HEADER]: opening,
        ...(pass && { authorization: `Bearer ${pass}` }),
      },
      body: JSON.stringify(body),
    });
    if (!response.ok) throw new Error(`${path} was answered with ${response.status}`);
    return response.json();
  };
  const { bearer } = (await post('/session', { code: hash.replace('#code=', '') })) as { bearer: string };
  const send = <N extends CallName>(name: N, input: CallInput<N>) =>
    post(`/call/${name}`, input, bearer) as Promise<Answer<CallOutput<N>>>;
  return async <N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> => {
    let answer = await send(name, input);
    if (!answer.ok && answer.problem.code === 'book.other-opening') {
      const look = await send('shop.get', {});
      if (look.ok) opening = look.value.opening;
      answer = await send(name, input);
    }
    if (!answer.ok) throw new Error(`${name} was refused: ${answer.problem.code}`);
    return answer.value;
  };
}
