/**
 * Long convolutions of real sequences by the fast Fourier transform (Cooley & Tukey, Mathematics of Computation 19 (1965)
 * 297–301). A sequence of even length is transformed as complex numbers of half that length, its even entries the real parts.
 */

/** The transform of a real sequence of `size` entries: frequencies 0 to size / 2. */
export interface Spectrum {
  readonly size: number;
  readonly real: Float64Array;
  readonly imaginary: Float64Array;
}

/** The smallest size of a transform that holds so many entries. */
export function transformSize(entries: number): number {
  let size = 4;
  while (size < entries) size *= 2;
  return size;
}

/**
 * The transform of `values`, with zeros after them up to `size`.
 * @param size a power of two, at least 4 and at least the number of values
 * @param from the index of the first value that counts
 */
export function spectrumOf(values: ArrayLike<number>, size: number, from = 0): Spectrum {
  const half = size / 2;
  const re = new Float64Array(half);
  const im = new Float64Array(half);
  const count = values.length - from;
  for (let i = 0; i < count; i += 2) re[i >> 1] = values[from + i]!;
  for (let i = 1; i < count; i += 2) im[i >> 1] = values[from + i]!;
  transform(re, im);
  const { cos, sin } = rootsOf(size);
  const real = new Float64Array(half + 1);
  const imaginary = new Float64Array(half + 1);
  for (let k = 0; k <= half; k++) {
    const at = k % half;
    const back = (half - k) % half;
    const oddRe = (im[at]! + im[back]!) / 2;
    const oddIm = (re[back]! - re[at]!) / 2;
    real[k] = (re[at]! + re[back]!) / 2 + cos[k]! * oddRe + sin[k]! * oddIm;
    imaginary[k] = (im[at]! - im[back]!) / 2 + cos[k]! * oddIm - sin[k]! * oddRe;
  }
  return { size, real, imaginary };
}

/**
 * The cyclic convolution of two sequences of one size: entry n is the sum of a[i] × b[n − i], indices modulo the size.
 * @param reversed `b` runs backwards: entry n is the sum of a[n + i] × b[i]
 */
export function cyclicConvolution(a: Spectrum, b: Spectrum, reversed = false): Float64Array {
  const { size } = a;
  const half = size / 2;
  const sign = reversed ? -1 : 1;
  const real = new Float64Array(half + 1);
  const imaginary = new Float64Array(half + 1);
  for (let k = 0; k <= half; k++) {
    const imaginaryOfB = sign * b.imaginary[k]!;
    real[k] = a.real[k]! * b.real[k]! - a.imaginary[k]! * imaginaryOfB;
    imaginary[k] = a.real[k]! * imaginaryOfB + a.imaginary[k]! * b.real[k]!;
  }
  const { cos, sin } = rootsOf(size);
  const re = new Float64Array(half);
  const im = new Float64Array(half);
  // The inverse is the transform with real and imaginary parts exchanged.
  for (let k = 0; k < half; k++) {
    const back = half - k;
    const differenceRe = real[k]! - real[back]!;
    const differenceIm = imaginary[k]! + imaginary[back]!;
    im[k] = real[k]! + real[back]! - (cos[k]! * differenceIm + sin[k]! * differenceRe);
    re[k] = imaginary[k]! - imaginary[back]! + (cos[k]! * differenceRe - sin[k]! * differenceIm);
  }
  transform(re, im);
  const values = new Float64Array(size);
  for (let i = 0; i < half; i++) {
    values[2 * i] = im[i]! / size;
    values[2 * i + 1] = re[i]! / size;
  }
  return values;
}

/** In place: entry k becomes the sum of entry n × exp(−2πi k n / length); the length is a power of two. */
function transform(re: Float64Array, im: Float64Array): void {
  const length = re.length;
  for (let i = 1, j = 0; i < length; i++) {
    let bit = length >> 1;
    for (; j & bit; bit >>= 1) j ^= bit;
    j ^= bit;
    if (i >= j) continue;
    const real = re[i]!;
    const imaginary = im[i]!;
    re[i] = re[j]!;
    im[i] = im[j]!;
    re[j] = real;
    im[j] = imaginary;
  }
  const { cos, sin } = rootsOf(length);
  for (let span = 1; span < length; span *= 2) {
    const step = length / (2 * span);
    for (let begin = 0; begin < length; begin += 2 * span)
      for (let i = begin, root = 0; i < begin + span; i++, root += step) {
        const j = i + span;
        const real = cos[root]! * re[j]! + sin[root]! * im[j]!;
        const imaginary = cos[root]! * im[j]! - sin[root]! * re[j]!;
        re[j] = re[i]! - real;
        im[j] = im[i]! - imaginary;
        re[i] = re[i]! + real;
        im[i] = im[i]! + imaginary;
      }
  }
}

interface Roots {
  readonly cos: Float64Array;
  readonly sin: Float64Array;
}
const roots = new Map<number, Roots>();

/** Cosine and sine of 2πk / size for k from 0 to size / 2. */
function rootsOf(size: number): Roots {
  let found = roots.get(size);
  if (!found) {
    const angles = Float64Array.from({ length: size / 2 + 1 }, (_, k) => (2 * Math.PI * k) / size);
    roots.set(size, (found = { cos: angles.map(Math.cos), sin: angles.map(Math.sin) }));
  }
  return found;
}
