/** Synonyms in tables for fixed choices: species, sex, how it came … */
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { WordField } from '../contract/contract.ts';
import { folded } from './fields.ts';
import { exportedSpecies, exportedWords } from './own-exports.ts';

/** Values by word and field. Usual words of shops and camps: common practice, no source. */
const MEANINGS: Readonly<Record<Exclude<WordField, 'species'>, Readonly<Record<string, string>>>> = {
  sex: {
    male: 'm male buck bull boar ram stag tom billy',
    female: 'f female doe cow sow ewe hind nanny hen',
    unknown: 'unknown u',
  },
  age: {
    young: 'young fawn calf cub piglet juvenile 0.5',
    yearling: 'yearling spike 1.5',
    adult: 'adult mature old 2.5 3.5 4.5 5.5',
    unknown: 'unknown u',
  },
  brought: {
    whole: 'whole|hide on|skin on|field dressed|whole in its skin',
    skinned: 'skinned|hide off|skin off|skinned out|carcass',
    quarters: 'quarters|quartered|in quarters|quarter',
    primals: 'primals|parts|pieces|some primals',
    boned: 'boned|boned out|deboned|de boned|boneless|boned trim|trim',
  },
  origin: { hunter: 'hunter wild game hunted', farm: 'farm farmed domestic' },
  what: {
    'live/carcass': 'live|live weight',
    'dressed/carcass': 'dressed|field dressed|field dressed weight',
    'received/carcass': 'received|weight received|gross|in',
    'hanging/carcass': 'hanging|hanging weight|hang|hook|rail|carcass',
    'cut/whole cuts': 'whole cuts|cuts|steaks|steaks and roasts|roasts',
    'cut/trim': 'trim|grind|ground|burger|trim for grinding',
    'cut/fat saved': 'fat saved|fat|own fat',
    'cut/sinew': 'sinew|silverskin|silver skin|sinew and silverskin',
    'cut/bone': 'bone|bones',
    'cut/damage': 'damage|waste|bloodshot|damage cut away',
    'packed/package': 'package|packages|packed|take home|finished|boxes',
  },
  pooling: { yes: 'yes y x true 1', no: 'no n false 0' },
};

/** Other names of the supplied species. Common names, no source. */
const OTHER_NAMES: Readonly<Record<string, string>> = {
  'white-tail': 'whitetail|white tail|white tailed|whitetail deer|white tail deer|wt|wtd',
  'mule-deer': 'mule|muley|mulie|md|muledeer',
  elk: 'wapiti',
  pronghorn: 'antelope|pronghorn antelope|goat',
  'wild-boar': 'hog|wild hog|feral hog|pig|wild pig|boar',
  'black-bear': 'bear|blackbear',
  bison: 'buffalo',
  cougar: 'mountain lion|lion|puma',
  caribou: 'reindeer',
};

export type Dictionary = Readonly<Record<WordField, ReadonlyMap<string, string>>>;

/** Everything that the desk understands, as folded words. */
export function dictionary(species: readonly SpeciesProfile[]): Dictionary {
  const entries = Object.entries(MEANINGS).map(([field, meanings]) => {
    const pairs = Object.entries(meanings).flatMap(([value, words]) =>
      [folded(value), ...(words.includes('|') ? words.split('|') : words.split(' '))].map(
        (word) => [word, value] as const,
      ),
    );
    return [field, new Map([...exportedWords(field as keyof typeof MEANINGS), ...pairs])];
  });
  const names = species.flatMap(({ code, name, many }) =>
    [code, name, many].map((word) => [folded(word), code] as const),
  );
  const others = species.flatMap(({ code }) =>
    (OTHER_NAMES[code]?.split('|') ?? []).map((word) => [word, code] as const),
  );
  const known = new Set(species.map(({ code }) => code));
  const abroad = exportedSpecies().filter(([, code]) => known.has(code));
  return { ...Object.fromEntries(entries), species: new Map([...abroad, ...others, ...names]) } as Dictionary;
}

/** The possible values of a field with fixed choices. */
export function valuesOf(field: WordField, known: Dictionary): string[] {
  return [...new Set(known[field].values())];
}
