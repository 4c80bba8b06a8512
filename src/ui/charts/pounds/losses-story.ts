import type { PoundsReport } from '../../../bridge/contract.ts';
import { fromGrams, toGrams } from '../../../core/values/units.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { paintOf, type Fate } from '../engine/part-paint.ts';
import { massAxis } from '../engine/axes.ts';
import { barRows } from '../engine/bar-rows.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';
import { fateInSentence, fateName, weighedOf } from './fates.ts';
import { unweighedNote } from './pounds-story.ts';

/** Losses, largest first, in weight and in money. */
export function lossesStory(view: PoundsReport, format: Format, linkOf: (fate: Fate) => string): ChartStory {
  const { losses, minorPerKg } = view;
  const money = (minor: number | null): string => (minor === null ? '' : format.money(minor));
  const rows = losses.map(({ what, grams, share, minor }) => {
    const said = [format.mass(grams, 0), format.share(share), ...(minor === null ? [] : [money(minor)])];
    const name = fateName(view, what);
    return {
      name,
      lines: [
        {
          pieces: [{ amount: fromGrams(grams, format.unit), paint: paintOf(what) }],
          words: said.join('  ·  '),
        },
      ],
      label: common.named({ name, text: said.join(', ') }),
      link: linkOf(what),
    };
  });
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
    table: tableOf(
      losses,
      [
        column(text.kind, ({ what }) => fateName(view, what)),
        column(text.weight, ({ grams }) => format.mass(grams, 1), ({ grams }) => grams, `${text.weight}, g`),
        column(text.share, ({ share }) => format.share(share), ({ share }) => share),
        column(text.money, ({ minor }) => money(minor), ({ minor }) => minor, text.moneyMinor),
      ],
      ({ what }) => linkOf(what),
    ),
    fileName: `losses-${view.season}`,
    plots: losses.length === 0 ? [] : [barRows(rows, massAxis(format))],
  }; // prettier-ignore
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
