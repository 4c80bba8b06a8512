/** The page that explains on plain HTTP how a device comes to trust the shop's root. It has no script and no picture. */
import { createHash } from 'node:crypto';
import { text as english } from '../../words/compiled/desk/trust.ts';
import { languages, type Language } from '../../words/languages.ts';
import { inLanguage } from '../../words/of-desk.ts';
import type { Fingerprints } from '../authority/fingerprint.ts';
import { safe } from './html.ts';
import { devicesOf, DEVICES, languageFor, offered, type Device } from './visitor.ts';
import { trustStyle } from './trust-style.ts';

/** Nothing but the one style of the page. */
export const TRUST_POLICY = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(trustStyle).digest('base64')}'`,
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Android takes a certificate only as a chosen file; see plain.ts. */
const ROOT_OF: Readonly<Record<Device, string>> = {
  ipad: '/gambrel.cer',
  android: '/gambrel.crt',
  windows: '/gambrel.cer',
  macos: '/gambrel.cer',
  linux: '/gambrel.cer',
};

export interface Visit {
  /** The query's `language`, and what the browser says of itself. */
  asked: string | null;
  accepts: string;
  agent: string;
  /** `host:port` under which the page was opened. */
  host: string;
  shop: string;
  fingerprints: Fingerprints;
}

export function trustPage({ asked, accepts, agent, host, shop, fingerprints }: Visit): string {
  const language = languageFor(asked, accepts);
  const text = inLanguage(english, language);
  const likely = devicesOf(agent);
  const title = text.title({ shop });
  const steps = DEVICES.map(
    (device) => `<details${likely.includes(device) ? ' open' : ''}>
<summary>${safe(text.devices[device].title)}</summary>
<ol>${lines(text.devices[device].steps)}</ol>
<p><a class="button" href="${ROOT_OF[device]}">${safe(text.download)}</a></p>
</details>`,
  ).join('\n');
  return `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${safe(title)}</title>
<style>${trustStyle}</style>
</head>
<body>
<main>
<h1>${safe(title)}</h1>
<p>${safe(text.intro)}</p>
<p>${safe(text.limits)}</p>
<h2>${safe(text.steps.title)}</h2>
${steps}
<h2>${safe(text.numbers.title)}</h2>
<p>${safe(text.numbers.how)}</p>
<dl>
<dt>${safe(text.numbers.sha256)}</dt><dd>${grouped(fingerprints.sha256)}</dd>
<dt>${safe(text.numbers.sha1)}</dt><dd>${grouped(fingerprints.sha1)}</dd>
</dl>
<h2>${safe(text.open.title)}</h2>
<p>${safe(text.open.how)}</p>
<p><a class="button next" href="https://${safe(host)}/">${safe(text.open.link)}</a></p>
<nav aria-label="${safe(text.languages)}">${offered(language).map(linkTo).join(' ')}</nav>
</main>
</body>
</html>
`;
}

function lines(steps: string): string {
  return steps
    .split('\n')
    .map((step) => `<li>${safe(step)}</li>`)
    .join('');
}

/** Groups of four pairs, which eyes can compare. */
function grouped(fingerprint: string): string {
  const groups = fingerprint.match(/(?:[\dA-F]{2}:?){1,4}/g) ?? [];
  return groups.map((group) => `<span>${group}</span>`).join('');
}

function linkTo(language: Language): string {
  return `<a href="/?language=${language}" lang="${language}">${safe(languages[language].name)}</a>`;
}
