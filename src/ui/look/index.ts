// The order matters: font, tokens, elements, page shapes, paper.
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import './tokens.css';
import './base.css';
import './layout.css';
import './print.css';
