/** Command line options, for the desktop app and plain Node. */
import { isAbsolute, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { text } from '../src/words/compiled/shell/terminal.ts';

export interface StartOptions {
  /** Another book than the default one. */
  book?: string;
  /**
   * Whether this start names that book; a named book is not created if missing. `GAMBREL_BOOK` sets the default
   * path.
   */
  named: boolean;
  demo: boolean;
  /** Preferred port of the loopback server. */
  port: number;
  /** Whether to open a browser. */
  openBrowser: boolean;
}

type StartOptionsResult = { ok: true; options: StartOptions } | { ok: false; sentence: string };

/** Not a registered service in IANA's list; any free port works as well. */
const USUAL_PORT = 4747;

/**
 * Reads `--book PATH` (or the bare path of a `.gambrel` file), `--demo`, `--port N`, `--no-open`; `GAMBREL_BOOK`
 * and `GAMBREL_NO_OPEN=1` have the same effect. Example: `readStartOptions(['--port', '4000'], {}, '/')` gives port
 * 4000, no demo.
 * @param strict false in the desktop app, where Chromium's own switches are among the arguments
 */
export function readStartOptions(
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
  folder: string,
  strict = true,
): StartOptionsResult {
  const options: StartOptions = {
    named: false,
    demo: false,
    port: USUAL_PORT,
    openBrowser: env['GAMBREL_NO_OPEN'] !== '1',
  };
  let book = env['GAMBREL_BOOK'];
  const words = args.flatMap((arg) => (/^--(book|port)=/.test(arg) ? splitOnce(arg) : [arg]));
  for (let at = 0; at < words.length; at += 1) {
    const word = words[at];
    if (word === '--demo') options.demo = true;
    else if (word === '--no-open') options.openBrowser = false;
    else if (word === '--book') {
      book = words[(at += 1)];
      options.named = true;
      if (!book) return wrong(text.bookNeedsPath);
    } else if (word === '--port') {
      const port = words[(at += 1)] ?? '';
      if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535) return wrong(text.notPort({ port }));
      options.port = Number(port);
    } else if (isBook(word)) {
      book = word;
      options.named = true;
    } else if (strict) {
      return wrong(text.unknownOption({ word: String(word) }));
    }
  }
  if (!book) return { ok: true, options };
  const path = pathOf(book);
  if (path === null) return wrong(text.notHere({ book }));
  options.book = isAbsolute(path) ? path : resolve(folder, path);
  return { ok: true, options };
}

/** A book opened from the file manager comes as a bare path, or on Linux as a file address. */
function isBook(word: string | undefined): word is string {
  return word !== undefined && !word.startsWith('-') && /\.gambrel$/i.test(word);
}

/**
 * The path of an argument. Linux file managers pass addresses (`file:///home/ann/My%20shop.gambrel`): `%U` in the
 * Desktop Entry Specification, "The Exec key". Null for an address on another computer or an invalid one.
 */
function pathOf(word: string): string | null {
  if (!/^file:/i.test(word)) return word;
  try {
    return fileURLToPath(word);
  } catch {
    return null;
  }
}

function splitOnce(arg: string): string[] {
  const at = arg.indexOf('=');
  return [arg.slice(0, at), arg.slice(at + 1)];
}

function wrong(sentence: string): StartOptionsResult {
  return { ok: false, sentence };
}
