/** The small window that the shell shows during the last backup. It makes no calls, because the desk is closing. */
import './closing.css';
import './look/index.ts';
import { aboutText as text } from './texts/en/about.ts';

const heading = document.createElement('h1');
heading.textContent = text.closing;
const sentence = document.createElement('p');
sentence.textContent = text.closingHow;
const bar = document.createElement('progress');
bar.setAttribute('aria-label', text.closing);
document.querySelector('#closing')?.append(heading, bar, sentence);
