// The order matters: font, tokens, elements, layout, tour highlight, print.
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import './tokens.css';
import './base.css';
import './layout.css';
import './sight.css';
import './print.css';
