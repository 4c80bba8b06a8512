import type { CallInput, CallName, CallOutput } from '../../src/bridge/contract.ts';
import type { Answer } from '../../src/desk/problem.ts';

/** A line to the desk of a served program beside its window: to look up what to open, not to be tested itself. */
export async function deskLine(address: string) {
  const { origin, hash } = new URL(address);
  const post = async (path: string, body: unknown, pass = ''): Promise<unknown> => {
    const response = await fetch(origin + path, {
      method: 'POST',
      headers: {
        'content-type': 'application/json',
        origin,
        ...(pass && { authorization: `Bearer ${pass}` }),
      },
      body: JSON.stringify(body),
    });
    if (!response.ok) throw new Error(`${path} was answered with ${response.status}`);
    return response.json();
  };
  const { bearer } = (await post('/session', { key: hash.replace('#key=', '') })) as { bearer: string };
  return async <N extends CallName>(name: N, input: CallInput<N>): Promise<CallOutput<N>> => {
    const answer = (await post(`/call/${name}`, input, bearer)) as Answer<CallOutput<N>>;
    if (!answer.ok) throw new Error(`${name} was refused: ${answer.problem.code}`);
    return answer.value;
  };
}
