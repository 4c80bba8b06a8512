import type { FatReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import type { Pattern } from '../drawing/scene.ts';
import { drawBars } from '../drawing/scene-bars.ts';
import type { SceneStory } from '../story.ts';

/** The animals' own fat, saved and ground, beside the bought fat of the same batches. */
export function ownFatStory({ season, saved }: FatReport, format: Format, animalsLink: string): SceneStory {
  const rows = [
    { name: text.savedRow, grams: saved.savedGrams },
    { name: text.groundRow, grams: saved.ownUsedGrams },
    { name: text.boughtRow, grams: saved.boughtGrams },
  ];
  const none = rows.every(({ grams }) => grams === 0);
  return {
    title: text.savedTitle,
    finding: none ? text.noSaved : finding(saved, format),
    n: text.nSaved({ animals: saved.animals }),
    notes: [text.savedKey],
    sources: [],
    table: {
      head: [text.source, text.weight],
      rows: none ? [] : rows.map(({ name, grams }) => [name, format.mass(grams, 0)]),
      plainHead: [text.source, `${text.weight}, g`],
      plain: rows.map(({ name, grams }) => [name, grams]),
    },
    fileName: `own-fat-${season}`,
    scene: none
      ? null
      : (colors, width) => {
          // The same fills as in the chart of sources.
          const own = (kind: Pattern) => ({ fill: colors.card, pattern: { kind, ink: colors.ink } });
          const fills = [own('hatch'), own('cross'), { fill: colors.fat }];
          const notes = [text.savedNote({ n: saved.animals }), '', ''];
          return drawBars(
            rows.map(({ name, grams }, i) => ({
              name,
              note: notes[i] ?? '',
              value: grams,
              words: format.mass(grams, 0),
              fill: fills[i] ?? {},
              ...(i === 0 ? { link: animalsLink } : {}),
            })),
            colors,
            width,
          );
        },
  };
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
