import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { makeLineSplitter, parseScaleLine } from '../../../src/core/scale/line.ts';

const bytes = (text: string): Uint8Array => Uint8Array.from([...text].map((one) => one.charCodeAt(0)));
const linesOf = (chunks: readonly string[], midStream = false): string[] => {
  const splitter = makeLineSplitter({ midStream });
  return chunks.flatMap((chunk) => splitter.take(bytes(chunk)));
};

describe('makeLineSplitter', () => {
  it.each<[string, string[], string[]]>([
    ['one line', ['18.62 lb\r\n'], ['18.62 lb']],
    ['a line cut in half by the port', ['18.', '62 l', 'b\r', '\n'], ['18.62 lb']],
    ['several in one piece', ['1.00 lb\r\n2.00 lb\n3.00 lb\r4'], ['1.00 lb', '2.00 lb', '3.00 lb']],
    ['a frame of STX and CR', ['\x02001862\r\x02001864\r'], ['001862', '001864']],
    ['a frame that broke off before the next began', ['\x0200\x02001864\r'], ['001864']],
    ['the status behind the weight', ['\x03\n 18.62lb\r\n', '00\r\x03'], ['\n 18.62lb\r\n00\r']],
    ['a frame with its check', ['\x01\x02S+0018.6LBv\x03\x04'], ['S+0018.6LBv']],
    ['a check behind the ETX', ['\x02 1.00 lb\x03q\x02 2.00 lb\x03r'], [' 1.00 lb', ' 2.00 lb']],
    ['bytes that are no text, for the reader to refuse', ['1\xff.62 lb\r'], ['1\xff.62 lb']],
    ['nothing', ['\r\n\r\n \r\n'], []],
  ])('gives %s', (_, chunks, lines) => expect(linesOf(chunks)).toEqual(lines));

  it('drops the tail of a number when opened mid-stream', () => {
    expect(linesOf(['8.62 lb\r\n18.62 lb\r\n'], true)).toEqual(['18.62 lb']);
    expect(linesOf(['62\x02001862\r'], true)).toEqual(['001862']);
  });

  it('limits its buffer, and continues after noise', () => {
    const splitter = makeLineSplitter();
    for (let i = 0; i < 1000; i++) expect(splitter.take(bytes('x'.repeat(1000)))).toEqual([]);
    expect(splitter.take(bytes('tail\r\n18.62 lb\r\n'))).toEqual(['18.62 lb']);
    // A scale that no longer ends with ETX, once it is clear that it does not.
    expect(linesOf(['1\x03', '18.62 lb\r\n'.repeat(20)]).at(-1)).toBe('18.62 lb');
  });

  it('gives the same lines however the bytes are chunked', () => {
    const piece = fc.constantFrom('ST,GS,+  18.62lb\r\n', 'US,GS,-   1.20kg\r\n', '\x02001862\r', '\n 18.62lb\r\n00\r\x03', '\x01\x02S+001862LBv\x03\x04', '\xff\x00', '- - - - lb\n', 'x'.repeat(140)); // prettier-ignore
    const cuts = fc.array(fc.nat(200), { maxLength: 30 });
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), cuts, fc.boolean(), (pieces, places, midStream) => {
        const stream = pieces.join('');
        const at = [
          ...new Set([0, ...places.map((place) => place % (stream.length + 1)), stream.length]),
        ].sort((a, b) => a - b);
        const chunks = at.slice(1).map((end, index) => stream.slice(at[index], end));
        expect(linesOf(chunks, midStream)).toEqual(linesOf([stream], midStream));
        expect(linesOf([...stream], midStream)).toEqual(linesOf([stream], midStream));
      }),
      { numRuns: 2000 },
    );
  });

  it('gives every line of a clean stream, each parsed as sent', () => {
    const weights = fc.array(fc.integer({ min: 1, max: 99_999 }), { minLength: 1, maxLength: 20 });
    const ends = fc.constantFrom('\r\n', '\r', '\n', '\x03');
    fc.assert(
      fc.property(weights, ends, fc.integer({ min: 1, max: 9 }), (counts, end, width) => {
        const stream = counts.map((count) => `ST,${(count / 100).toFixed(2).padStart(8)}lb${end}`).join('');
        const chunks = stream.match(new RegExp(`[^]{1,${width}}`, 'g')) ?? [];
        const read = linesOf(chunks).map((line) => parseScaleLine(line));
        expect(read.map((line) => (line.overload ? null : line.digits))).toEqual(counts);
      }),
      { numRuns: 1000 },
    );
  });
});
