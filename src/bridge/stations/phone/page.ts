/** The pages of a hunter's own phone: plain HTML without a script or a picture, in the hunter's language. */
import type { DraftSheet, DraftWay } from '../../../desk/contract/contract.ts';
import { text as english } from '../../../words/compiled/desk/phone.ts';
import { HUNTER_LANGUAGES, type HunterLanguage } from '../../../words/hunter-language.ts';
import { languages } from '../../../words/languages.ts';
import { inLanguage } from '../../../words/of-desk.ts';
import { safe } from '../html.ts';
import { phoneStyle } from './style.ts';
import { priceLines } from './prices.ts';
import { waysFor, type Typed } from './typed.ts';

export interface Visit {
  language: HunterLanguage;
  /** The number of the slip that the address ends with; '' for none. */
  slip: string;
}

/** Problems that the page has a sentence for; any other is `other`. */
export type PhoneProblem = 'name' | 'sex' | 'cuts' | 'date' | 'slip' | 'full' | 'often' | 'again' | 'other';

const wordsOf = (language: HunterLanguage) => inLanguage(english, language);
const addressOf = ({ slip }: Visit): string => (slip ? `/check-in/${slip}` : '/check-in');

/** What phones are told while the shop does not let them check in. */
export function closedPage(visit: Visit): string {
  const text = wordsOf(visit.language);
  return page(visit, text.title, `<p>${safe(text.closed)}</p>`);
}

/** Which animal: the rest of the form depends on it. */
export function firstPage(visit: Visit, sheet: DraftSheet): string {
  const text = wordsOf(visit.language);
  const links = sheet.species.map(
    ({ code, title }) =>
      `<a class="pick" href="${addressOf(visit)}?language=${visit.language}&amp;species=${encodeURIComponent(code)}">${safe(title)}</a>`,
  );
  return page(
    visit,
    text.titleOf({ shop: sheet.shopName }),
    `<p>${safe(text.intro)}</p>
<p class="note">${safe(text.open)}</p>
<h2>${safe(text.species)}</h2>
<div class="picks">${links.join('\n')}</div>
${languageLinks(visit)}`,
  );
}

/** @param form that was handed out with it */
export function formPage(
  visit: Visit,
  sheet: DraftSheet,
  typed: Typed,
  { form, problem = null }: { form: string; problem?: PhoneProblem | null },
): string {
  const text = wordsOf(visit.language);
  const species = sheet.species.find(({ code }) => code === typed.species);
  const field = (name: string, label: string, more = ''): string =>
    `<label>${safe(label)}<input name="${name}" value="${safe(typed[name] ?? '')}" ${more}></label>`;
  const choice = (name: string, value: string, label: string, lines: readonly string[] = []): string =>
    `<label class="choice"><input type="radio" name="${name}" value="${safe(value)}"${typed[name] === value ? ' checked' : ''}>` +
    `<span>${safe(label)}${lines.map((line) => `<small>${safe(line)}</small>`).join('')}</span></label>`;
  const way = (value: string, title: string, one: DraftWay): string =>
    choice('cuts', value, title, priceLines(sheet, typed.species ?? '', one, visit.language));
  const always = priceLines(sheet, typed.species ?? '', null, visit.language);
  return page(
    visit,
    text.titleOf({ shop: sheet.shopName }),
    `${problem ? `<p class="problem" role="alert">${safe(text.problems[problem])}</p>` : ''}
<p class="note">${safe(text.open)}</p>
<form method="post" action="${addressOf(visit)}?language=${visit.language}" autocomplete="off">
<input type="hidden" name="form" value="${form}">
<input type="hidden" name="species" value="${safe(typed.species ?? '')}">
${visit.slip ? `<p>${safe(text.slip({ slip: visit.slip }))}</p>` : ''}
<h2>${safe(text.you)}</h2>
${field('name', text.name, 'required maxlength="200"')}
${field('phone', text.phone, 'type="tel" maxlength="60"')}
<h2>${safe(species?.title ?? text.species)}</h2>
<fieldset><legend>${safe(text.sex)}</legend>
${choice('sex', 'male', species?.male ?? '')}${choice('sex', 'female', species?.female ?? '')}${choice('sex', 'unknown', text.unknown)}
</fieldset>
${field('tag', text.tag, 'maxlength="80"')}
${field('killDate', text.killDate, `type="date" max="${sheet.today}"`)}
${field('killArea', text.killArea, 'maxlength="200"')}
<fieldset><legend>${safe(text.cuts)}</legend>
${always.map((line) => `<small>${safe(line)}</small>`).join('')}
${way('usual', text.usual, sheet.usual)}
${waysFor(sheet, typed.species ?? '')
  .map((one) => way(`way ${one.title}`, one.title, one))
  .join('\n')}
${choice('cuts', 'counter', text.atCounter)}
</fieldset>
${field('note', text.note, 'maxlength="300"')}
${sheet.terms ? `<h2>${safe(text.terms)}</h2><p class="terms" lang="${sheet.termsLanguage}">${safe(sheet.terms)}</p><p>${safe(text.signLater)}</p>` : ''}
<button>${safe(text.give)}</button>
</form>`,
  );
}

export function thanksPage(visit: Visit, name: string): string {
  const text = wordsOf(visit.language);
  const how = visit.slip ? text.thanksSlip : text.thanksHow;
  return page(visit, text.thanks({ name }), `<p>${safe(how)}</p>`);
}

function languageLinks(visit: Visit): string {
  const others = HUNTER_LANGUAGES.filter((code) => code !== visit.language);
  const links = others.map(
    (code) =>
      `<a href="${addressOf(visit)}?language=${code}" lang="${code}">${safe(languages[code].name)}</a>`,
  );
  return `<nav aria-label="${safe(wordsOf(visit.language).languages)}">${links.join(' ')}</nav>`;
}

function page({ language }: Visit, title: string, body: string): string {
  return `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${safe(title)}</title>
<style>${phoneStyle}</style>
</head>
<body>
<main>
<h1>${safe(title)}</h1>
${body}
</main>
</body>
</html>
`;
}
