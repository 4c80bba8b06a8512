/** Rules for dependency-cruiser (`npm run check:arrows`): layers, rooms and circles; it sees imports of types too. */
import { layers, lightCore, rooms } from './rooms.js';

const within = (folder) => `^${folder}/`;
const anyOf = (names) => `(${names.join('|')})`;

const layerRules = Object.entries(layers).map(([layer, above]) => ({
  name: `${layer} reaches up`,
  comment: 'A layer uses only the layers below it (rooms.js).',
  severity: 'error',
  from: { path: within(layer) },
  to: { path: within(anyOf(above)) },
}));

const roomRules = Object.entries(rooms).flatMap(([layer, list]) => [
  ...list.map((room, at) => ({
    name: `${layer}/${room} reaches up`,
    comment: 'A room uses only rooms that stand before it in rooms.js, and no file at the root of its layer.',
    severity: 'error',
    from: { path: within(`${layer}/${room}`) },
    to: { path: [...list.slice(at + 1).map((later) => within(`${layer}/${later}`)), `^${layer}/[^/]+$`] },
  })),
  {
    name: `${layer} has a folder that is no room`,
    comment: 'Each folder of a layer stands in rooms.js.',
    severity: 'error',
    from: { path: `^${layer}/[^/]+/`, pathNot: within(`${layer}/${anyOf(list)}`) },
    to: {},
  },
]);

export default {
  forbidden: [
    ...layerRules,
    ...roomRules,
    {
      name: 'the window uses the heavy core',
      comment: 'The window uses only the light parts of the core (rooms.js); it asks the desk for the rest.',
      severity: 'error',
      from: { path: '^src/ui/' },
      to: { path: '^src/core/', pathNot: `^src/core/${anyOf(lightCore)}[.]ts$` },
    },
    {
      name: 'circle',
      comment: 'What two files need from each other moves to a file that is neither of them.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { extensions: ['.ts', '.vue', '.mjs', '.js'] },
  },
};
