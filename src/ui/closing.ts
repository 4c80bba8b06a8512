/** The small window that the shell shows while the last backup is made. It asks the desk nothing: that is closing. */
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
