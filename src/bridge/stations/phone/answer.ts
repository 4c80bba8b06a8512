/** What a hunter's own phone may ask over plain HTTP: the form of a check-in, and to hand it in. Nothing else takes a body there. */
import type { IncomingMessage } from 'node:http';
import type { Problem } from '../../../desk/contract/problem.ts';
import type { PhoneDoor } from '../../../desk/contract/stations.ts';
import { isHunterLanguage, type HunterLanguage } from '../../../words/hunter-language.ts';
import { RefusedRequest } from '../../server/refusal.ts';
import { pathOf } from '../../server/sender.ts';
import { languageFor } from '../visitor.ts';
import { phoneForms } from './forms.ts';
import { phoneLimits } from './limits.ts';
import { closedPage, firstPage, formPage, thanksPage, type PhoneProblem, type Visit } from './page.ts';
import { draftOf, type Typed } from './typed.ts';

/** Each field at its longest, every letter escaped, is below it. */
const BODY_LIMIT = 16 * 1024;
/** Capitals too: square codes hold more of them. */
const PATH = /^\/check-in(?:\/(\d{3}-\d{3}-\d{3}))?$/i;

export const isPhonePath = (request: IncomingMessage): boolean => PATH.test(pathOf(request));

interface Html {
  status: number;
  body: string;
}

export function answerPhones(door: PhoneDoor, now: () => number = Date.now) {
  const forms = phoneForms<PhoneProblem>(now);
  const mayGive = phoneLimits(now);

  /**
   * @param host under which the page was opened
   * @throws RefusedRequest 403, 405, 413, 415
   */
  return async (request: IncomingMessage, host: string): Promise<Html> => {
    const { query, ...visit } = visitOf(request);
    const sheet = door.sheet(visit.language);
    if (!sheet) return { status: 404, body: closedPage(visit) };
    if (request.method === 'POST') return give(request, host, visit);
    if (request.method !== 'GET' && request.method !== 'HEAD')
      throw new RefusedRequest(405, 'invalid', 'request.wrong-method');
    const species = query.get('species') ?? '';
    if (!sheet.species.some(({ code }) => code === species))
      return { status: 200, body: firstPage(visit, sheet) };
    return { status: 200, body: formPage(visit, sheet, { species }, { form: forms.hand() }) };
  };

  async function give(request: IncomingMessage, host: string, visit: Visit): Promise<Html> {
    const { origin } = request.headers;
    if (origin !== undefined && origin !== `http://${host}`)
      throw new RefusedRequest(403, 'refused', 'request.wrong-origin');
    const typed = await readForm(request);
    const given = forms.once(typed.form ?? '', () => keep(request, visit, typed));
    const problem = given === undefined ? 'again' : await given;
    if (problem === null) return { status: 200, body: thanksPage(visit, typed.name ?? '') };
    const sheet = door.sheet(visit.language);
    if (!sheet) return { status: 404, body: closedPage(visit) };
    const status = problem === 'often' ? 429 : 422;
    return { status, body: formPage(visit, sheet, typed, { form: forms.hand(), problem }) };
  }

  async function keep(request: IncomingMessage, visit: Visit, typed: Typed): Promise<PhoneProblem | null> {
    if (!typed.sex) return 'sex';
    if (!typed.cuts) return 'cuts';
    if (!mayGive(request.socket.remoteAddress ?? '')) return 'often';
    const sheet = door.sheet(visit.language);
    if (!sheet) return 'other';
    const answer = await door.give(draftOf(typed, sheet, visit.language, visit.slip));
    return answer.ok ? null : saidAs(answer.problem);
  }
}

function saidAs({ code, field }: Problem): PhoneProblem {
  if (code.startsWith('slip.')) return 'slip';
  if (code.startsWith('date.')) return 'date';
  if (code === 'draft.too-many') return 'full';
  return field === 'name' ? 'name' : 'other';
}

function visitOf(request: IncomingMessage): Visit & { query: URLSearchParams } {
  const { url = '', headers } = request;
  const query = new URLSearchParams(url.split('?', 2)[1]);
  const language = languageFor(query.get('language'), headers['accept-language'] ?? '');
  return { query, slip: PATH.exec(pathOf(request))?.[1] ?? '', language: hunterLanguage(language) };
}

const hunterLanguage = (language: string): HunterLanguage =>
  isHunterLanguage(language) ? language : 'en-US';

/** @throws RefusedRequest 413, 415 */
async function readForm(request: IncomingMessage): Promise<Typed> {
  if (request.headers['content-type']?.split(';', 1)[0] !== 'application/x-www-form-urlencoded')
    throw new RefusedRequest(415, 'invalid', 'request.malformed');
  const pieces: Buffer[] = [];
  let bytes = 0;
  for await (const piece of request as AsyncIterable<Buffer>) {
    bytes += piece.length;
    if (bytes > BODY_LIMIT) throw new RefusedRequest(413, 'invalid', 'request.too-large');
    pieces.push(piece);
  }
  return Object.fromEntries(new URLSearchParams(Buffer.concat(pieces).toString('utf8')));
}
