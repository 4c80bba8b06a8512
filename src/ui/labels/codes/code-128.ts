/** Code 128 (ISO/IEC 15417) of printable ASCII: code set B, and code set C for pairs of digits. */

/** Widths of bar, space, bar … of the values 0–105, and of the stop sign. */
const WIDTHS =
  '212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 112232 122132 122231 113222 123122 123221 223211 221132 221231 213212 223112 312131 311222 321122 321221 312212 322112 322211 212123 212321 232121 111323 131123 131321 112313 132113 132311 211313 231113 231311 112133 112331 132131 113123 113321 133121 313121 211331 231131 213113 213311 213131 311123 311321 331121 312113 312311 332111 314111 221411 431111 111224 111422 121124 121421 141122 141221 112214 112412 122114 122411 142112 142211 241211 221114 413111 241112 134111 111242 121142 121241 114212 124112 124211 411212 421112 421211 212141 214121 412121 111143 111341 131141 114113 114311 411113 411311 113141 114131 311141 411131 211412 211214 211232 2331112'.split(
    ' ',
  );
const TO_C = 99;
const TO_B = 100;
const START_B = 104;
const START_C = 105;
const STOP = 106;

/** Fewer digits in a row are shorter in code set B: changing to C and back takes a value each. */
const WORTH_IT = { whole: 2, atAnEnd: 4, between: 6 };

/** The values of a text, from the start sign to the last character. */
function valuesOf(text: string): number[] {
  const values: number[] = [];
  let inC: boolean | null = null;
  const change = (toC: boolean): void => {
    if (inC === toC) return;
    values.push(inC === null ? (toC ? START_C : START_B) : toC ? TO_C : TO_B);
    inC = toC;
  };
  const plain = (part: string): void => {
    for (const character of part) {
      change(false);
      values.push(character.charCodeAt(0) - 32);
    }
  };
  for (const { 0: run, index } of text.matchAll(/\d+|\D+/g)) {
    const ends = Number(index === 0) + Number(index + run.length === text.length);
    const least = [WORTH_IT.between, WORTH_IT.atAnEnd, WORTH_IT.whole][ends] ?? WORTH_IT.whole;
    if (!/\d/.test(run) || run.length < least) {
      plain(run);
      continue;
    }
    // An odd digit stays with its neighbor in code set B.
    const odd = run.length % 2;
    const first = index === 0 ? 0 : odd;
    plain(run.slice(0, first));
    for (let at = first; at < run.length - odd + first; at += 2) {
      change(true);
      values.push(Number(run.slice(at, at + 2)));
    }
    plain(run.slice(run.length - odd + first));
  }
  return values;
}

/**
 * Widths of the bars and spaces of `text` in narrowest bars, beginning with a bar.
 * @throws RangeError for other than printable ASCII, or no text
 * @example widthsOf('26-0147').length // 55
 */
export function widthsOf(text: string): number[] {
  if (!/^[ -~]+$/.test(text)) throw new RangeError('Only printable ASCII becomes bars.');
  const values = valuesOf(text);
  const check = values.reduce((sum, value, at) => sum + value * Math.max(1, at), 0) % 103;
  return [...values, check, STOP].flatMap((value) => [...(WIDTHS[value] ?? '')].map(Number));
}
