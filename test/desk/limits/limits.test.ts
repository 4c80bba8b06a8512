/** Every call has a stated limit, its schema keeps it, and what is just too much is refused in words. */
import type * as v from 'valibot';
import { describe, expect, it } from 'vitest';
import type { CallName } from '../../../src/bridge/contract.ts';
import { procedures } from '../../../src/desk/procedures.ts';
import { problemCodes } from '../../../src/ui/texts/problem-sentences.ts';
import { freshDesk } from '../fresh-desk.ts';
import { TRIED } from '../tried-writes.ts';
import { grown, oversized } from './largest.ts';
import { boundsOf } from './schemas.ts';
import { LIMITS } from './table.ts';

const NAMES = Object.keys(procedures) as CallName[];
const schemaOf = (name: CallName): v.GenericSchema => procedures[name].input as v.GenericSchema;

describe('the table of limits', () => {
  it('has every call, and no other', () => {
    expect(Object.keys(LIMITS).sort()).toEqual([...NAMES].sort());
  });

  it.each(NAMES)('%s: no list, text or number in its input is without a most', (name) => {
    expect(boundsOf(schemaOf(name)).unbounded).toEqual([]);
  });

  it.each(NAMES)('%s: says what the schema lets through', (name) => {
    const { list, text } = boundsOf(schemaOf(name));
    expect({ list, text }).toEqual({ list: LIMITS[name].list, text: LIMITS[name].text });
  });
});

/** Refused in words, or done; never a fault of the program. */
function expectAnswered(answer: Awaited<ReturnType<Shop['desk']['call']>>, of: string): void {
  if (answer.ok) return;
  expect(answer.problem.code, of).not.toBe('desk.broken');
  expect(problemCodes, of).toContain(answer.problem.code);
}
type Shop = Awaited<ReturnType<typeof freshDesk>>;

describe('an input as large as it may be', () => {
  it.each(NAMES.filter((name) => boundsOf(schemaOf(name)).all.length > 0))(
    '%s is answered, and one more of anything is refused',
    async (name) => {
      const shop = await freshDesk();
      const [, input] = (await TRIED[name]?.(shop)) ?? [name, {}];
      for (const large of grown(schemaOf(name), input))
        expectAnswered(await shop.desk.call(name, large.input), large.what);
      for (const large of oversized(schemaOf(name), input)) {
        const answer = await shop.desk.call(name, large.input);
        expect(answer, large.what).toMatchObject({ ok: false, problem: { kind: 'invalid' } });
        expectAnswered(answer, large.what);
      }
      expect(shop.broken).toEqual([]);
      shop.desk.close();
    },
    30_000,
  );
});
