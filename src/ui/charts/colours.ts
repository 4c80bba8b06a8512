/** The colours that a drawing takes from the look, so that it follows the light and the dark theme. */
export interface ChartColours {
  ink: string;
  muted: string;
  line: string;
  card: string;
  spruce: string;
  blaze: string;
  lean: string;
  fat: string;
  steel: string;
  font: string;
}

/** Reads the colours that hold at `element` now. */
export function coloursAt(element: Element): ChartColours {
  const style = getComputedStyle(element);
  const token = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: token('--ink'),
    muted: token('--muted'),
    line: token('--line'),
    card: token('--card'),
    spruce: token('--spruce'),
    blaze: token('--blaze'),
    lean: token('--part-lean'),
    fat: token('--part-fat'),
    steel: token('--steel'),
    font: style.fontFamily,
  };
}
