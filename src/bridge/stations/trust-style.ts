/** The style of the trust page, in the colors of `src/ui/look/tokens.css`: a page without files carries its own. */
export const trustStyle = `
:root { color-scheme: light dark; --ground: #f5f2ea; --card: #fffdf8; --line: #d5d3c8; --ink: #1b2527; --spruce: #1f4d45; --on-spruce: #fffdf8; }
@media (prefers-color-scheme: dark) {
  :root { --ground: #0f1819; --card: #162224; --line: #2b3a3c; --ink: #e8edeb; --spruce: #7cc3b2; --on-spruce: #10201d; }
}
body { margin: 0; background: var(--ground); color: var(--ink); font: 1.125rem/1.5 system-ui, sans-serif; }
main { max-width: 42rem; margin: 0 auto; padding: 24px 16px 48px; }
h1 { font-size: 1.75rem; line-height: 1.2; overflow-wrap: anywhere; }
h2 { margin-top: 32px; font-size: 1.25rem; }
details { margin: 8px 0; padding: 0 16px; background: var(--card); border: 1px solid var(--line); border-radius: 8px; }
summary { padding: 14px 0; font-weight: 600; cursor: pointer; }
li { margin: 8px 0; }
a { color: var(--spruce); }
.button { display: inline-block; padding: 14px 20px; border-radius: 8px; background: var(--spruce); color: var(--on-spruce); font-weight: 600; text-decoration: none; }
/* One filled button: what to do first. */
.next { box-shadow: inset 0 0 0 2px var(--spruce); background: none; color: var(--spruce); }
dt { margin-top: 12px; }
dd { margin: 4px 0 0; font-family: ui-monospace, monospace; font-size: 1.0625rem; }
dd span { display: inline-block; margin-right: 8px; white-space: nowrap; }
nav { display: flex; flex-wrap: wrap; gap: 8px 24px; margin-top: 32px; }
nav a { padding: 12px 0; }
`;
