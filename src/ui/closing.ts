/** The small window that the shell shows during the last backup. It makes no calls, because the desk is closing. */
import './closing.css';
import './look/index.ts';
import { text } from '../words/compiled/window/closing.ts';
import { isLanguage } from '../words/languages.ts';
import { loadLanguage } from '../words/load.ts';
import { speakWith } from '../words/speech.ts';

const asked = new URLSearchParams(location.search).get('language');
if (isLanguage(asked)) {
  await loadLanguage(asked);
  speakWith({ language: () => asked });
  document.documentElement.lang = asked;
}
const heading = document.createElement('h1');
heading.textContent = text.title;
const sentence = document.createElement('p');
sentence.textContent = text.how;
const bar = document.createElement('progress');
bar.setAttribute('aria-label', text.title);
document.querySelector('#closing')?.append(heading, bar, sentence);
