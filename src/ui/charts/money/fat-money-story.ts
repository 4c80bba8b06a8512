import type { CostingView } from '../../../bridge/contract.ts';
import { fatFinding } from './costs-words.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { costBar } from '../drawing/pair-bars.ts';
import { box, type Mark, type Scene } from '../drawing/scene.ts';
import type { SceneStory } from '../story.ts';

const NAMES = 230;
const AMOUNTS = 110;
const ROW = 52;
const BAR = 32;

/** Cost of the bought fat that was ground, compared with the fat charges. */
export function fatMoneyStory({ season, fat }: CostingView, format: Format, link: string): SceneStory {
  const rows = [
    { name: text.fatCost, minor: fat.cost },
    { name: text.fatCharged, minor: fat.chargedMinor },
  ];
  return {
    title: text.fatTitle,
    finding: fatFinding(fat, format),
    n: text.fatN({ mass: format.mass(fat.usedGrams, 0) }),
    notes: [text.fatKey],
    sources: [],
    table: {
      head: [text.what, text.amount],
      rows: rows.map(({ name, minor }) => [name, format.money(minor)]),
      plain: rows.map(({ name, minor }) => [name, minor]),
    },
    fileName: `fat-money-${season}`,
    scene:
      fat.cost === 0 && fat.chargedMinor === 0
        ? null
        : (colors, width) => drawFat(rows, format, link, colors, width),
  };
}

function drawFat(
  rows: readonly { name: string; minor: number }[],
  format: Format,
  link: string,
  colors: ChartColors,
  width: number,
): Scene {
  const most = Math.max(...rows.map(({ minor }) => minor));
  const marks = rows.map(({ name, minor }, i): Mark => {
    const long = Math.max(2, (minor / most) * (width - NAMES - AMOUNTS));
    const d = box(NAMES, i * ROW + 6, long, BAR, 3);
    const print = { kind: 'text' as const, y: i * ROW + 27, fill: colors.ink };
    return {
      label: `${name}: ${format.money(minor)}`,
      link,
      shapes: [
        { ...print, x: 0, text: name, size: 15, weight: 600 },
        i === 0 ? costBar(d, colors) : { kind: 'path', d, fill: colors.spruce },
        { ...print, x: NAMES + long + 10, text: format.money(minor), size: FONT_SIZE },
      ],
    };
  });
  return { width, height: rows.length * ROW, marks };
}
