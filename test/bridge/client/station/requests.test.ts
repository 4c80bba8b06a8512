/** What a station's page sends, and to which address of the desk. */
import { describe, expect, it } from 'vitest';
import { DeskAway, ShutOut, stationRequests } from '../../../../src/bridge/client/station/requests.ts';

const [OLD, NEW] = ['https://192.168.1.5:47115', 'https://192.168.1.9:47115'];

/** A network on which some addresses answer. */
function network(answers: Record<string, () => Response>) {
  const asked: { url: string; bearer: string | null }[] = [];
  const fetch = async (url: string, init: RequestInit = {}) => {
    asked.push({ url, bearer: new Headers(init.headers).get('authorization') });
    const answer = answers[new URL(url).origin];
    if (!answer) throw new TypeError('Failed to fetch');
    return answer();
  };
  return { asked, fetch: fetch as typeof globalThis.fetch };
}

const requestsOn = ({ fetch }: ReturnType<typeof network>, addresses = [OLD, NEW]) =>
  stationRequests({ fetch, secret: () => 's-1', addresses: () => addresses });
const json = (body: unknown, status = 200) => Response.json(body, { status });

describe('where it sends', () => {
  it('takes a desk that has another address now for away, and looks at the others', async () => {
    const wrong = json({ problem: { kind: 'refused', code: 'request.wrong-host' } }, 403);
    const net = network({ [OLD]: () => wrong.clone(), [NEW]: () => json({ ok: true }) });
    const requests = requestsOn(net);
    await expect(requests.post('/entry', {})).rejects.toMatchObject({ problem: null });
    expect(await requests.postAnywhere('/station', {})).toEqual({ ok: true });
  });

  it('looks for the desk at each known address, and stays with the one that answered', async () => {
    const net = network({ [NEW]: () => json({ ok: true }) });
    const requests = requestsOn(net);
    await requests.postAnywhere('/station', {});
    await requests.post('/entry', {});
    expect(net.asked).toEqual([
      { url: `${OLD}/station`, bearer: 'Bearer s-1' },
      { url: `${NEW}/station`, bearer: 'Bearer s-1' },
      { url: `${NEW}/entry`, bearer: 'Bearer s-1' },
    ]);
  });

  it('sends a call to one address only: at another it might be done twice', async () => {
    const net = network({ [NEW]: () => json({ ok: true }) });
    await expect(requestsOn(net).post('/call/pickup.release', {})).rejects.toThrow(DeskAway);
    expect(net.asked.map(({ url }) => url)).toEqual([`${OLD}/call/pickup.release`]);
  });
});

describe('what is no answer', () => {
  it.each(['paused', 'removed', 'unknown'] as const)('is shut out when the station is %s', async (state) => {
    const problem = { kind: 'refused', code: `station.${state}` };
    const net = network({ [OLD]: () => json({ ok: false, problem }, 401) });
    await expect(requestsOn(net).postAnywhere('/station', {})).rejects.toEqual(new ShutOut(state));
    await expect(requestsOn(net).listen(AbortSignal.timeout(1000))).rejects.toEqual(new ShutOut(state));
  });

  it('says what the desk said when it is too busy', async () => {
    const problem = { kind: 'refused', code: 'request.too-many' };
    const net = network({ [OLD]: () => json({ ok: false, problem }, 503) });
    await expect(requestsOn(net, [OLD]).post('/entry', {})).rejects.toMatchObject({ problem });
  });

  it('takes half an answer for none', async () => {
    const net = network({ [OLD]: () => new Response('{"taken":tr') });
    await expect(requestsOn(net, [OLD]).post('/entry', {})).rejects.toMatchObject({ problem: null });
  });
});
