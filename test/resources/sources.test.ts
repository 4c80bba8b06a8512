/** Every figure that comes with the program says how far it can be trusted, and who published it. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ownSpecies } from '../../src/core/species/own.ts';
import type { Grade, SpeciesProfile } from '../../src/core/species/species.ts';
import { PUBLICATIONS, sourceNote } from '../../src/desk/supplied/sources.ts';

const FOLDER = new URL('../../resources/', import.meta.url);
const json = (name: string): unknown => JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8'));
const species = json('species.json') as SpeciesProfile[];

/** What may stand behind each grade. */
const BEHIND: Readonly<Record<Exclude<Grade, 'assumption'>, readonly string[]>> = {
  measured: ['journal', 'thesis', 'proceedings', 'institute'],
  official: ['agency'],
  extension: ['extension'],
};

/** Hosts whose pages once stood here: forums, newspapers, machine-spun and personal pages, trade posts, trade papers. */
const NEVER = [
  '24hourcampfire', 'hunttalk', 'coueswhitetail', 'huntingindiana', 'proboards', 'idahostatejournal',
  'cookcountynews', 'greenriverstar', 'adn.com', 'enviroliteracy', 'survivalskillz', 'scoobydoo', 'wikispaces',
  'thehunterconservationist', 'backcountrychronicles', 'pourvoiries', 'thefreelibrary', 'beef-exchange',
  'loveofthehunt', 'hillbillybonez', 'fishing-about', 'ntro.it', 'tayaaussie', 'blogg', 'wordpress', 'reddit',
  'facebook', 'youtube', 'wikipedia', 'unionpedia', 'liquisearch', 'lexace', 'jung-jaeger', 'tedbaker', 'slideplayer',
]; // prettier-ignore
/** Kinds of address by their name. */
const FORUM = /forum|\/threads?\/|ubbthreads|viewtopic|blog|news-?herald|tribune|gazette/i;

interface Figure {
  path: string;
  node: Record<string, unknown>;
}

/** Every object that gives a figure or its origin, with its path. */
function figures(node: unknown, path: string): Figure[] {
  if (typeof node !== 'object' || node === null) return [];
  const inside = Object.entries(node).flatMap(([key, value]) => figures(value, `${path}.${key}`));
  const isFigure = ['mean', 'typical', 'grade', 'source'].some((key) => key in node);
  return isFigure && !path.endsWith('.source') ? [{ path, node: { ...node } }, ...inside] : inside;
}

const withFigures = [
  'species.json', 'fats.json', 'products.json', 'instructions.json', 'cure-limits.json', 'composition-rules.json', 'heat-tables.json',
  'loss-assumptions.json', 'recipes.json',
]; // prettier-ignore
const all = withFigures.flatMap((name) => figures(json(name), name));

describe('publications', () => {
  it.each(PUBLICATIONS)('$code: a publisher of an accepted kind, an address, a day of reading', (one) => {
    expect(Object.values(BEHIND).flat()).toContain(one.kind);
    expect(['text', 'abstract', 'data', 'method', 'reprint']).toContain(one.seen);
    expect(one.cite.length).toBeGreaterThan(15);
    expect(one.read).toMatch(/^20\d\d-\d\d-\d\d$/);
    const { protocol, hostname } = new URL(one.address);
    expect(protocol).toMatch(/^https?:$/);
    for (const host of NEVER) expect(hostname, one.code).not.toContain(host);
    expect(one.address).not.toMatch(FORUM);
  });

  it('stand at a publisher of their kind', () => {
    // Copies of printed bulletins lie in document stores; their publisher is named in the citation.
    const copies = /^(studylib\.net|yumpu\.com|www\.edocr\.com)$/;
    const hosts: Readonly<Record<string, RegExp>> = {
      journal:
        /^(doi\.org|academic\.oup\.com|alcesjournal\.org|www\.sasas\.co\.za|discovery\.researcher\.life)$/,
      thesis: /\.ac\.nz$/,
      proceedings: /^seafwa\.org$/,
      institute: /^www\.noble\.org$/,
      agency: /\.gov$|^iceage\.museum\.state\.il\.us$/,
      extension: /^newprairiepress\.org$/,
    };
    for (const { code, kind, address, cite } of PUBLICATIONS) {
      const host = new URL(address).hostname;
      if (copies.test(host)) expect(cite, code).toMatch(/University|Department|Agri-Food Canada/);
      else expect(host, code).toMatch(hosts[kind] ?? /^$/);
    }
  });

  it('are each listed once, and each cited by a figure', () => {
    const codes = PUBLICATIONS.map(({ code }) => code);
    expect(new Set(codes).size).toBe(codes.length);
    const cited = new Set(all.flatMap(({ node }) => (node.cites ?? []) as string[]));
    expect(codes.filter((code) => !cited.has(code))).toEqual([]);
  });
});

describe('figures', () => {
  const kindOf = new Map(PUBLICATIONS.map(({ code, kind }) => [code, kind as string]));

  it.each(all)('$path has a grade, and what that grade asks for', ({ path, node }) => {
    const { grade, source, cites } = node as { grade: Grade; source: string; cites: string[] };
    expect(['measured', 'official', 'extension', 'assumption'], path).toContain(grade);
    expect(source.length, path).toBeGreaterThan(10);
    for (const code of cites) expect(kindOf.has(code), `${path}: ${code}`).toBe(true);
    if (grade === 'assumption') return;
    const kinds = cites.map((code) => kindOf.get(code));
    expect(
      kinds.some((kind) => BEHIND[grade].includes(kind ?? '')),
      `${path}: ${grade} by ${String(kinds)}`,
    ).toBe(true);
  });

  it('never call measured what is taken over from another species', () => {
    for (const { path, node } of all)
      if (
        /\b(as|stand(s)? (in )?for|after) (mule deer|white-tail|elk|moose|other deer|fallow|beef|cattle|deer)\b/i.test(
          String(node.source),
        )
      )
        expect(node.grade, path).toBe('assumption');
  });

  it('are found in every file, so that none is passed over', () => {
    const known = [
      ...withFigures, 'record-fields.json', 'sources.json', 'cautions.json', 'example-costs.json',
      'example-prices.json',
    ]; // prettier-ignore
    const files = readdirSync(FOLDER).filter((name) => name.endsWith('.json'));
    expect(files.filter((name) => !known.includes(name))).toEqual([]);
    expect(all.length).toBeGreaterThan(200);
  });

  it('name no forum, newspaper, content farm or personal page', () => {
    const files = readdirSync(FOLDER).filter((one) => one.endsWith('.json'));
    for (const name of files) {
      const text = readFileSync(new URL(name, FOLDER), 'utf8').toLowerCase();
      for (const host of NEVER) expect(text, name).not.toContain(host);
      for (const [address] of text.matchAll(/https?:[^\s"]+/g)) expect(address, name).not.toMatch(FORUM);
    }
  });
});

describe('an assumption', () => {
  /** Least standard deviation of each, in shares; of small ones, so much of its mean. Our choice of what is wide. */
  const WIDE: Readonly<Record<string, (mean: number) => number>> = {
    liveToDressed: () => 0.04,
    dressedToHanging: () => 0.04,
    liveToHanging: () => 0.04,
    trimFat: () => 0.025,
    takeHome: () => 0.06,
    takeHomeOfQuarters: () => 0.06,
    takeHomeOfBoned: () => 0.04,
    wholeCuts: () => 0.12,
    ownFat: (mean) => mean,
    bone: () => 0.08,
    sinew: () => 0.08,
    damage: (mean) => mean / 2,
    shrink: () => 0.05,
  };
  const relatives = species.map((relative) =>
    ownSpecies(relative, { ...relative, code: `own-${relative.code}`, name: 'Own', many: 'own' }),
  );

  it.each([...species, ...relatives])('of $code is wide, and counts for few animals', (profile) => {
    for (const { path, node } of figures(profile, profile.code)) {
      if (node.grade !== 'assumption' || typeof node.mean !== 'number') continue;
      const least = WIDE[path.slice(path.lastIndexOf('.') + 1)];
      expect(least, path).toBeDefined();
      expect(Number(node.sd), path).toBeGreaterThanOrEqual((least?.(node.mean) ?? 1) - 1e-12);
      if ('animals' in node) expect(Number(node.animals), path).toBeLessThanOrEqual(3);
    }
  });

  it.each(species)('of the hanging weight of $code lets a third and twice of it pass', ({ hangingGrams }) => {
    if (hangingGrams.grade !== 'assumption') return;
    expect(hangingGrams.least).toBeLessThanOrEqual(hangingGrams.typical / 3);
    expect(hangingGrams.most).toBeGreaterThanOrEqual(2 * hangingGrams.typical);
  });

  it('of a fat is no surer than 6 points', () => {
    for (const { code, grade, sd } of json('fats.json') as { code: string; grade: Grade; sd: number }[])
      if (grade === 'assumption') expect(sd, code).toBeGreaterThanOrEqual(0.06);
  });
});

describe('lists of agencies', () => {
  const sets = json('record-fields.json') as {
    code: string;
    grade: Grade;
    source: { kind: string; title: string; address: string; read: string };
  }[];

  it.each(sets)('$code rests on a law or an agency, or says that it is ours', ({ code, grade, source }) => {
    expect(source.kind).toMatch(code === 'general' ? /^ours$/ : /^(law|agency)$/);
    expect(grade).toBe(code === 'general' ? 'assumption' : 'official');
    expect(source.read).toMatch(/^20\d\d-\d\d-\d\d$/);
    if (code !== 'general')
      expect(source.address).toMatch(/\.gov|law\.cornell\.edu|govt\.westlaw\.com|justia\.com/);
  });
});

it('says how a figure was arrived at, then who published it and what of it was read', () => {
  const elk = species.find(({ code }) => code === 'elk') as SpeciesProfile;
  const { grade, source } = sourceNote(elk.takeHome);
  expect(grade).toBe('extension');
  expect(source).toMatch(/^218\/364 six bulls/);
  expect(source).toContain(
    'University of Wyoming Agricultural Experiment Station, 2003, https://www.edocr.com',
  );
  expect(source).toMatch(/method read, figures as others report them$/);
});
