import type { FlowReport } from '../../../bridge/contract.ts';
import { flowText as text } from '../../texts/en/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { drawHanging } from './hanging-drawing.ts';
import type { SceneStory } from '../story.ts';

/** Animals hanging by day, and the forecast. `narrowed` when the view is filtered. */
export function hangingStory(view: FlowReport, narrowed: boolean, format: Format): SceneStory {
  const { days, forecast, season } = view;
  const places = narrowed ? null : view.places;
  const whole = (value: number) => format.number(value);
  return {
    title: text.hangingTitle,
    finding: hangingFinding({ ...view, places }, format),
    n: text.hangingN(days.reduce((total, { taken }) => total + taken, 0)),
    notes: [
      [
        text.hangingKey,
        ...(places === null ? [] : [text.placesKey(places)]),
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
    scene:
      days.length === 0
        ? null
        : (colors, width) => drawHanging({ days, forecast, places }, format, colors, width),
  };
}

/** Whether and when the coolers fill, and the basis of the forecast; for a past season, the peak. */
function hangingFinding(view: FlowReport, format: Format): string {
  if (view.days.length === 0) return text.empty(view.season);
  if (view.pace === null) return pastFinding(view, format);
  return [...fillSentences(view, format), ...restSentences(view.pace, format)].join(' ');
}

function pastFinding({ days, places }: FlowReport, format: Format): string {
  const most = days.reduce((all, day) => (day.hanging > all.hanging ? day : all));
  const over = places === null ? 0 : days.filter(({ hanging }) => hanging > places).length;
  return [
    text.peak(most.hanging, format.day(most.on)),
    ...(places !== null && over > 0 ? [text.overPlaces(over, places)] : []),
  ].join(' ');
}

function fillSentences({ days, forecast, places }: FlowReport, format: Format): string[] {
  const now = days.at(-1)?.hanging ?? 0;
  const last = forecast.at(-1);
  const weeks = Math.round(forecast.length / 7);
  if (places === null)
    return [
      text.nowBare(now),
      ...(last
        ? [text.aheadBare(format.number(last.low), format.number(last.high), format.day(last.on))]
        : []),
    ];
  if (now >= places) {
    const room = forecast.find(({ mean }) => mean < places);
    return [text.nowFull(now, places), ...(room ? [text.freesUp(format.day(room.on))] : [])];
  }
  const likely = forecast.find(({ mean }) => mean >= places);
  const early = forecast.find(({ high }) => high >= places);
  const fills = likely
    ? [
        text.fillsAbout(format.day(likely.on)),
        ...(early && early.on < likely.on ? [text.fillsEarly(format.day(early.on))] : []),
      ]
    : early
      ? [text.fillsPerhaps(format.day(early.on), weeks)]
      : [text.fillsNot(format.number(Math.max(0, ...forecast.map(({ high }) => high))), weeks)];
  return [text.now(now, places), ...fills];
}

function restSentences(pace: NonNullable<FlowReport['pace']>, format: Format): string[] {
  const taken = format.number(pace.takenPerDay, 1);
  return [
    pace.earlierSeasons > 0 ? text.restsEarlier(taken, pace.earlierSeasons) : text.restsPace(taken),
    pace.days > 0 ? text.restsCut(format.number(pace.cutPerDay, 1), pace.days) : text.restsNoCut,
  ];
}
