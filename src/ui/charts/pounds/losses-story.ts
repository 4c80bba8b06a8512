import type { PoundsReport } from '../../../bridge/contract.ts';
import { toGrams } from '../../../core/values/units.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { fateName, fateInSentence } from './fate-name.ts';
import { type Fate, painted } from '../drawing/part-paint.ts';
import { weighedOf } from './pounds-layout.ts';
import { unweighedNote } from './pounds-story.ts';
import { box, type Mark, type Scene } from '../drawing/scene.ts';
import type { SceneStory } from '../story.ts';

const ROW = 46;
const NAMES = 250;
/** Room for weight, share and money after the longest bar. */
const WORDS = 250;

/** Losses, largest first, in weight and in money. */
export function lossesStory(view: PoundsReport, format: Format, linkOf: (fate: Fate) => string): SceneStory {
  const { losses, minorPerKg } = view;
  const money = (minor: number | null): string => (minor === null ? '' : format.money(minor));
  return {
    title: text.lossTitle,
    finding: lossesFinding(view, format),
    n: text.n({ n: view.n, others: view.others }),
    notes: [
      minorPerKg === null
        ? text.noMoney
        : text.lossMoney({ unit: format.unit, money: moneyPer(minorPerKg, format) }),
      ...unweighedNote(view),
    ],
    sources: [],
    table: {
      head: [text.kind, text.weight, text.share, text.money],
      rows: losses.map(({ what, grams, share, minor }) => [
        fateName(view, what),
        format.mass(grams, 1),
        format.share(share),
        money(minor),
      ]),
      links: losses.map(({ what }) => linkOf(what)),
      plainHead: [text.kind, `${text.weight}, g`, text.share, text.moneyMinor],
      plain: losses.map(({ what, grams, share, minor }) => [fateName(view, what), grams, share, minor]),
    },
    fileName: `losses-${view.season}`,
    scene: losses.length === 0 ? null : (colors, width) => drawLosses(view, format, linkOf, colors, width),
  };
}

function moneyPer(minorPerKg: number, format: Format): string {
  const kilograms = toGrams(1, format.unit) / 1000;
  return format.money(Math.round(minorPerKg * kilograms));
}

/** The total loss, and the largest one that a shop can influence. */
function lossesFinding(view: PoundsReport, format: Format): string {
  const { n, losses } = view;
  if (n === 0 || losses.length === 0) return text.noLoss;
  // Losses in the grinder and smoker are part of the take-home: they are listed, but not added here.
  const lost = losses.reduce((total, { what, grams }) => total + (isAfter(what) ? 0 : grams), 0);
  const avoidable = losses.find(({ what }) => what !== 'bone');
  const most = avoidable
    ? text.lossFixed({
        what: fateInSentence(view, avoidable.what),
        mass: format.mass(avoidable.grams, 0),
        money: avoidable.minor === null ? null : format.money(avoidable.minor),
      })
    : text.onlyBone;
  return text.lossFinding({
    share: format.share(lost / weighedOf(view)),
    mass: format.mass(lost, 0),
    least: most,
  });
}

function isAfter(what: PoundsReport['losses'][number]['what']): boolean {
  return what === 'grinder' || what === 'smokehouse';
}

function drawLosses(
  view: PoundsReport,
  format: Format,
  linkOf: (fate: Fate) => string,
  colors: ChartColors,
  width: number,
): Scene {
  const { losses } = view;
  const longest = Math.max(...losses.map(({ grams }) => grams));
  const marks = losses.map(({ what, grams, share, minor }, i): Mark => {
    const bar = Math.max(3, (grams / longest) * (width - NAMES - WORDS));
    const words = [
      format.mass(grams, 0),
      format.share(share),
      ...(minor === null ? [] : [format.money(minor)]),
    ];
    const print = { kind: 'text' as const, y: i * ROW + 28, fill: colors.ink };
    return {
      label: `${fateName(view, what)}: ${words.join(', ')}`,
      link: linkOf(what),
      shapes: [
        { ...print, x: 0, text: fateName(view, what), size: 15, weight: 600 },
        painted(what, box(NAMES, i * ROW + 8, bar, 30, 4), colors),
        { ...print, x: NAMES + bar + 12, text: words.join('  ·  '), size: FONT_SIZE },
      ],
    };
  });
  return { width, height: losses.length * ROW + 4, marks };
}
