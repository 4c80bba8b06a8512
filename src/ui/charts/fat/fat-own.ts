import type { FatReport } from '../../../bridge/contract.ts';
import { fromGrams } from '../../../core/values/units.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { massAxis } from '../engine/axes.ts';
import { barRows } from '../engine/bar-rows.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';
import { OWN } from './fat-sources.ts';

/** The animals' own fat, saved and ground, beside the bought fat of the same batches. */
export function ownFatStory({ season, saved }: FatReport, format: Format, animalsLink: string): ChartStory {
  const rows = [
    { name: text.savedRow, grams: saved.savedGrams, paint: OWN, note: text.savedNote({ n: saved.animals }), link: animalsLink },
    { name: text.groundRow, grams: saved.ownUsedGrams, paint: { ...OWN, pattern: 'cross' as const }, note: '', link: '' },
    { name: text.boughtRow, grams: saved.boughtGrams, paint: 'fat' as const, note: '', link: '' },
  ]; // prettier-ignore
  const drawn = rows.map(({ name, note, grams, paint, link }) => {
    const words = format.mass(grams, 0);
    return { name: note ? [name, note] : name, lines: [{ pieces: [{ amount: fromGrams(grams, format.unit), paint }], words }], label: common.named({ name, text: words }), link };
  }); // prettier-ignore
  const none = rows.every(({ grams }) => grams === 0);
  return {
    title: text.savedTitle,
    finding: none ? text.noSaved : finding(saved, format),
    n: text.nSaved({ animals: saved.animals }),
    notes: [text.savedKey],
    sources: [],
    table: tableOf(none ? [] : rows, [
      column(text.source, ({ name }) => name),
      column(text.weight, ({ grams }) => format.mass(grams, 0), ({ grams }) => grams, `${text.weight}, g`),
    ]),
    fileName: `own-fat-${season}`,
    plots: none ? [] : [barRows(drawn, massAxis(format))],
  }; // prettier-ignore
}

function finding({ savedGrams, ownUsedGrams, boughtGrams, animals }: FatReport['saved'], format: Format): string {
  const mass = (grams: number) => format.mass(grams, 0);
  const left = savedGrams - ownUsedGrams;
  const own =
    animals === 0
      ? text.savedNone
      : savedGrams < ownUsedGrams
        ? text.groundUnsaved({ mass: mass(-left) })
        : text.savedUsed({ animals, saved: mass(savedGrams), share: format.share(ownUsedGrams / savedGrams, 0) });
  if (boughtGrams === 0) return `${own} ${text.noBought}`;
  return left > 0 ? `${own} ${text.couldReplace({ left: mass(left), share: format.share(left / boughtGrams, 0) })}` : own;
} // prettier-ignore
