import type { FlowReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { drawHanging } from './hanging-drawing.ts';
import type { ChartStory } from '../story.ts';

/** Animals hanging by day, and the forecast. `narrowed` when the view is filtered. */
export function hangingStory(view: FlowReport, narrowed: boolean, format: Format): ChartStory {
  const { days, forecast, season } = view;
  const places = narrowed ? null : view.places;
  const whole = (value: number) => format.number(value);
  return {
    title: text.hangingTitle,
    finding: hangingFinding({ ...view, places }, format),
    n: text.hangingN({ n: days.reduce((total, { taken }) => total + taken, 0) }),
    notes: [
      [
        text.hangingKey,
        ...(places === null ? [] : [text.placesKey({ places })]),
        ...(forecast.length > 0 ? [text.forecastKey] : []),
      ].join(' '),
      ...(narrowed ? [text.narrowed] : []),
    ],
    sources: [],
    table: {
      head: [text.day, text.hanging, text.expected],
      rows: [
        ...days.map(({ on, hanging }) => [format.day(on), String(hanging), '']),
        ...forecast.map(({ on, low, mean, high }) => [
          format.day(on),
          '',
          `${whole(mean)} (${whole(low)}–${whole(high)})`,
        ]),
      ],
      plainHead: [text.day, text.hanging, text.low, text.mean, text.high],
      plain: [
        ...days.map(({ on, hanging }) => [on, hanging, null, null, null]),
        ...forecast.map(({ on, low, mean, high }) => [on, null, low, mean, high]),
      ],
    },
    fileName: `hanging-${season}`,
    plots: days.length === 0 ? [] : [drawHanging({ days, forecast, places }, format)],
  };
}

/** Whether and when the coolers fill, and the basis of the forecast; for a past season, the peak. */
function hangingFinding(view: FlowReport, format: Format): string {
  if (view.days.length === 0) return text.empty({ season: String(view.season) });
  if (view.pace === null) return pastFinding(view, format);
  return [...fillSentences(view, format), ...restSentences(view.pace, format)].join(' ');
}

function pastFinding({ days, places }: FlowReport, format: Format): string {
  const most = days.reduce((all, day) => (day.hanging > all.hanging ? day : all));
  const over = places === null ? 0 : days.filter(({ hanging }) => hanging > places).length;
  return [
    text.peak({ n: most.hanging, day: format.day(most.on) }),
    ...(places !== null && over > 0 ? [text.overPlaces({ n: over, places })] : []),
  ].join(' ');
}

function fillSentences({ days, forecast, places }: FlowReport, format: Format): string[] {
  const now = days.at(-1)?.hanging ?? 0;
  const last = forecast.at(-1);
  const weeks = Math.round(forecast.length / 7);
  if (places === null)
    return [
      text.nowBare({ n: now }),
      ...(last
        ? [
            text.aheadBare({
              range: [...new Set([last.low, last.high].map((n) => format.number(n)))].join('–'),
              day: format.day(last.on),
            }),
          ]
        : []),
    ];
  if (now >= places) {
    const room = forecast.find(({ mean }) => mean < places);
    return [text.nowFull({ n: now, places }), ...(room ? [text.freesUp({ day: format.day(room.on) })] : [])];
  }
  const likely = forecast.find(({ mean }) => mean >= places);
  const early = forecast.find(({ high }) => high >= places);
  const fills = likely
    ? [
        text.fillsAbout({ day: format.day(likely.on) }),
        ...(early && early.on < likely.on ? [text.fillsEarly({ day: format.day(early.on) })] : []),
      ]
    : early
      ? [text.fillsPerhaps({ day: format.day(early.on), weeks })]
      : [text.fillsNot({ high: format.number(Math.max(0, ...forecast.map(({ high }) => high))), weeks })];
  return [text.now({ n: now, places }), ...fills];
}

function restSentences(pace: NonNullable<FlowReport['pace']>, format: Format): string[] {
  const taken = format.number(pace.takenPerDay, 1);
  return [
    pace.earlierSeasons > 0
      ? text.restsEarlier({ perDay: taken, seasons: pace.earlierSeasons })
      : text.restsPace({ perDay: taken }),
    pace.days > 0
      ? text.restsCut({ perDay: format.number(pace.cutPerDay, 1), over: pace.days })
      : text.restsNoCut,
  ];
}
