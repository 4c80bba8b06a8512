/** The colors of a drawing, from the style sheet, so that it follows the light and the dark theme. */
export interface ChartColors {
  ink: string;
  muted: string;
  line: string;
  card: string;
  spruce: string;
  blaze: string;
  steel: string;
  lean: string;
  trim: string;
  fat: string;
  bone: string;
  sinew: string;
  damage: string;
  shrink: string;
  /** Of text on the parts. */
  onLean: string;
  onTrim: string;
  onFat: string;
  onBone: string;
  onSinew: string;
  onDamage: string;
  font: string;
}

/** Reads the current colors at `element`. */
export function colorsAt(element: Element): ChartColors {
  const style = getComputedStyle(element);
  const token = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: token('--ink'),
    muted: token('--muted'),
    line: token('--line'),
    card: token('--card'),
    spruce: token('--spruce'),
    blaze: token('--blaze'),
    steel: token('--steel'),
    lean: token('--part-lean'),
    trim: token('--part-trim'),
    fat: token('--part-fat'),
    bone: token('--part-bone'),
    sinew: token('--part-sinew'),
    damage: token('--part-damage'),
    shrink: token('--part-shrink'),
    onLean: token('--on-lean'),
    onTrim: token('--on-trim'),
    onFat: token('--on-fat'),
    onBone: token('--on-bone'),
    onSinew: token('--on-sinew'),
    onDamage: token('--on-damage'),
    font: style.fontFamily,
  };
}

/** The colors of the light theme, whatever the window shows: for print. */
export function colorsOfPaper(): ChartColors {
  const probe = document.createElement('span');
  probe.dataset.theme = 'light';
  document.body.append(probe);
  const colors = colorsAt(probe);
  probe.remove();
  return colors;
}
