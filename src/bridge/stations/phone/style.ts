import { createHash } from 'node:crypto';
import { trustStyle } from '../trust-style.ts';

/** The style of the phone's pages: that of the trust page, and a form for thumbs. */
export const phoneStyle = `${trustStyle}
form, fieldset, .picks { display: grid; gap: 14px; }
fieldset { margin: 0; padding: 12px 16px 16px; border: 1px solid var(--line); border-radius: 8px; }
legend { padding: 0 4px; font-weight: 600; }
label { display: grid; gap: 4px; font-weight: 600; }
input { box-sizing: border-box; width: 100%; min-height: 56px; padding: 8px 12px; border: 1px solid var(--edge); border-radius: 8px; background: var(--card); color: var(--ink); font: inherit; }
.choice, .pick { display: flex; gap: 12px; align-items: center; min-height: 56px; padding: 8px 16px; border: 1px solid var(--edge); border-radius: 8px; background: var(--card); font-weight: 400; }
.choice input { flex: none; width: 24px; min-height: 24px; margin: 0; accent-color: var(--spruce); }
.pick { color: var(--ink); font-weight: 600; text-decoration: none; }
small { display: block; font-size: 1rem; }
button { min-height: 60px; padding: 14px 20px; border: 0; border-radius: 8px; background: var(--spruce); color: var(--on-spruce); font: inherit; font-weight: 600; }
.note { padding-left: 12px; border-left: 4px solid var(--line); }
.terms { white-space: pre-line; overflow-wrap: anywhere; }
.problem { padding: 12px 16px; border: 2px solid var(--blaze); border-radius: 8px; font-weight: 600; }
:root { --edge: #77827f; --blaze: #b3400e; }
@media (prefers-color-scheme: dark) { :root { --edge: #8d9a98; --blaze: #ff9a5c; } }
`;

/** Nothing but the style, and forms to ourselves. */
export const PHONE_POLICY = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(phoneStyle).digest('base64')}'`,
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');
