/** On Linux, which kind of display the program is to use: `GAMBREL_SMOKE_DISPLAY`, `x11` or `wayland`. */
export function displayWords(env: Readonly<Record<string, string | undefined>> = process.env): string[] {
  const display = env['GAMBREL_SMOKE_DISPLAY'];
  return display ? [`--ozone-platform=${display}`] : [];
}
