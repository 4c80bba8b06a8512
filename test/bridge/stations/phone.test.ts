/** A hunter's own phone over plain HTTP: off until the shop switches it on, a form of one's own and nothing else, and its limits. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { phoneForms } from '../../../src/bridge/stations/phone/forms.ts';
import { phoneLimits } from '../../../src/bridge/stations/phone/limits.ts';
import { knockPlain, openLine, type OpenLine } from './open-line.ts';

let line: OpenLine;
beforeEach(async () => {
  line = await openLine();
  line.door.set({ phones: true });
});
afterEach(() => line.close());

interface Sent {
  method?: string;
  headers?: Record<string, string | null>;
  body?: string;
}

async function phone(path: string, { method, headers = {}, body = '' }: Sent = {}) {
  const all: Record<string, string | null> = {
    host: line.host,
    ...(body && {
      origin: `http://${line.host}`,
      'content-type': 'application/x-www-form-urlencoded',
      'content-length': String(Buffer.byteLength(body)),
    }),
    ...headers,
  };
  const head = Object.entries(all).flatMap(([name, value]) => (value === null ? [] : [`${name}: ${value}`]));
  const heard = await knockPlain(
    line,
    `${method ?? (body ? 'POST' : 'GET')} ${path} HTTP/1.1\r\n${head.join('\r\n')}\r\n\r\n${body}`,
  );
  const [top = '', ...rest] = heard.split('\r\n\r\n');
  return {
    status: Number(/^HTTP\/1\.1 (\d{3})/.exec(top)?.[1] ?? 0),
    head: top.toLowerCase(),
    page: rest.join(),
  };
}

const formOf = (page: string) => /name="form" value="([\w-]+)"/.exec(page)?.[1] ?? '';
const TYPED = {
  name: 'Rosa Vega',
  species: 'elk',
  sex: 'female',
  cuts: 'way Links',
  phone: '',
  tag: 'T-1',
  killDate: '',
  killArea: '',
  note: 'thick',
};
const filled = (form: string, more: object = {}) =>
  new URLSearchParams({ ...TYPED, form, ...more }).toString();
const fresh = async () => formOf((await phone('/check-in?species=elk')).page);

describe('a hunter’s own phone', () => {
  it('is told to go to the counter, and nothing is kept, until the shop lets it check in', async () => {
    const form = await fresh();
    line.door.set({ phones: false });
    for (const sent of [{}, { body: filled(form) }]) {
      const { status, page } = await phone('/check-in/483-201-957', sent);
      expect([status, page.includes('Please go to the counter.'), page.includes('<form')]).toEqual([
        404,
        true,
        false,
      ]);
    }
    expect(line.door.drafts).toEqual([]);
  });

  it('picks its animal, then gets the form with cuts and prices, and sees no trust page', async () => {
    const first = await phone('/check-in', { headers: { 'accept-language': 'es-ES' } });
    expect(first.page).toContain('href="/check-in?language=es-MX&amp;species=elk"');
    expect(first.page).not.toMatch(/gambrel\.c|https:/);
    const { page, head } = await phone('/CHECK-IN/483-201-957?species=elk');
    for (const said of [
      'Slip 483-201-957',
      'Cutting: $95.00 per animal',
      'Links: $3.50 per lb',
      'Pick up soon.',
    ])
      expect(page).toContain(said);
    expect(head).toContain("default-src 'none'; style-src 'sha256-");
    expect(page).not.toMatch(/<script|<b>Ridge/);
  });

  it('hands in a draft once, however often the form is sent', async () => {
    const body = filled(await fresh());
    const [one, two] = await Promise.all([
      phone('/check-in/483-201-957', { body }),
      phone('/check-in/483-201-957', { body }),
    ]);
    const three = await phone('/check-in/483-201-957', { body });
    for (const { status, page } of [one, two, three])
      expect([status, page.includes('Thank you, Rosa Vega')]).toEqual([200, true]);
    expect(line.door.drafts).toMatchObject([
      {
        language: 'en-US',
        name: 'Rosa Vega',
        species: 'elk',
        sex: 'female',
        killDate: null,
        slip: '483-201-957',
        instructions: { note: 'thick' },
      },
    ]);
    expect(line.door.calls).toEqual([]);
  });

  it('keeps what was typed where something is missing, refused, or the form is too old', async () => {
    const form = await fresh();
    const again = async (more: object, says: string) => {
      const { status, page } = await phone('/check-in', { body: filled(form, more) });
      expect([status, page.includes(says), page.includes('value="Rosa Vega"')]).toEqual([422, true, true]);
      expect(formOf(page)).not.toBe('');
    };
    await again({ sex: '' }, 'Pick male, female');
    await again({ cuts: '' }, 'Pick how to cut it.');
    await again({ form: 'of-another-page' }, 'open for too long');
    for (const [code, says] of [
      ['slip.used', 'already used'],
      ['date.future', 'That day cannot be right'],
      ['draft.too-many', 'Too many hunters'],
      ['input.invalid', 'cannot be read'],
    ] as const) {
      line.door.refuses = { ok: false, problem: { kind: 'refused', code } };
      await again({}, says);
    }
    expect(line.door.drafts).toHaveLength(4);
  });

  it('is held to a few forms in ten minutes, each and together', async () => {
    let at = 0;
    const may = phoneLimits(() => at);
    const times = (address: string, many: number) =>
      Array.from({ length: many }, () => may(address)).filter(Boolean).length;
    expect(times('a', 20)).toBe(8);
    for (const address of ['b', 'c', 'd', 'e']) times(address, 8);
    expect(times('f', 8)).toBe(0);
    at = 10 * 60_000;
    expect(times('f', 8)).toBe(8);
    for (let i = 0; i < 8; i += 1) await phone('/check-in', { body: filled(await fresh()) });
    const { status, page } = await phone('/check-in', { body: filled(await fresh()) });
    expect([status, page.includes('Wait ten minutes')]).toEqual([429, true]);
  });

  it('loses a form after two hours, and the oldest of very many', async () => {
    let at = 0;
    const forms = phoneForms<string>(() => at);
    const first = forms.hand();
    const take = async () => null;
    for (let i = 0; i < 500; i += 1) forms.hand();
    expect(forms.once(first, take)).toBeUndefined();
    const last = forms.hand();
    at = 2 * 60 * 60_000 + 1;
    expect(forms.once(last, take)).toBeUndefined();
    const refused = forms.hand();
    expect(await forms.once(refused, async () => 'no')).toBe('no');
    expect(await forms.once(refused, take)).toBeNull();
  });
});

describe('an attack on the phone’s page', () => {
  const HUGE = 17_000;
  it.each<[string, (form: string) => Sent, number]>([
    [
      'another site’s page',
      (form) => ({ body: filled(form), headers: { origin: 'https://evil.example' } }),
      403,
    ],
    [
      'a page without an origin of its own',
      (form) => ({ body: filled(form), headers: { origin: 'null' } }),
      403,
    ],
    [
      'another site that resolves to this address',
      (form) => ({ body: filled(form), headers: { host: 'evil.example' } }),
      403,
    ],
    [
      'a body of JSON',
      (form) => ({ body: filled(form), headers: { 'content-type': 'application/json' } }),
      415,
    ],
    ['a body without a kind', (form) => ({ body: filled(form), headers: { 'content-type': null } }), 415],
    ['a huge body', (form) => ({ body: filled(form, { note: 'x'.repeat(HUGE) }) }), 413],
    ['another method', (form) => ({ body: filled(form), method: 'PUT' }), 405],
  ])('by %s is refused', async (_, sent, status) => {
    const answer = await phone('/check-in', sent(await fresh()));
    expect(answer.status).toBe(status);
    expect(line.door.drafts).toEqual([]);
  });

  it.each([
    '/check-in/../station',
    '/check-in/483-201-95x',
    '/check-in/483-201-957/x',
    '/check-inx',
    '/call/drafts.list',
  ])('by the path %s reaches no form', async (path) => {
    const { status, page } = await phone(path);
    expect([status, page]).toEqual([307, '']);
    expect((await phone(path, { body: filled('x') })).status).toBe(403);
  });

  it('by a script in what was typed draws no element', async () => {
    const name = '"><script>alert(1)</script>';
    const { page } = await phone('/check-in', { body: filled(await fresh(), { name, sex: '' }) });
    expect(page).toContain('value="&#34;&#62;&#60;script');
    expect(page).not.toContain('<script>');
  });
});
