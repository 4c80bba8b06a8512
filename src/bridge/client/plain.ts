import type { Problem } from '../../desk/contract/problem.ts';

type PlainCopy = { ok: true; json: string } | { ok: false; problem: Problem };

/**
 * The input of a call as JSON text. Reactive proxies are copied, because they cannot be sent to another process;
 * `undefined` members are omitted. A number that JSON would turn into null (NaN, infinite) is refused, because null
 * often has another meaning ("no fat wanted"). Example: `plainCopy({ percent: NaN })` is the problem
 * `input.not-a-number`, field `percent`.
 */
export function plainCopy(input: unknown): PlainCopy {
  let wrong: string | null = null;
  const check = (key: string, value: unknown) => {
    if (typeof value === 'number' && !Number.isFinite(value)) wrong ??= key;
    return value;
  };
  try {
    const json = JSON.stringify(input ?? {}, check);
    if (wrong !== null) return refusal('input.not-a-number', wrong);
    return json === undefined ? refusal('input.not-plain') : { ok: true, json };
  } catch {
    return refusal('input.not-plain'); // a circular structure, or a bigint
  }
}

function refusal(code: string, field?: string): PlainCopy {
  return { ok: false, problem: { kind: 'invalid', code, ...(field ? { field } : {}) } };
}
