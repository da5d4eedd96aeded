/**
 * Imports go one way: a room imports from its own folder and from the rows above it, never from below.
 * The stages, all on one row, never import each other either. `npm run order` checks it, and so does
 * test/repo/order.test.ts, which also plants one fault a rule.
 */
const STAGES = '(?:styles|motifs|fold|fit|sheet|register|scan|tool|cards|write|guide)';
const ROWS = [
  ['units', '^src/units/'],
  ['geom', '^src/geom/'],
  ['words', '^src/words/'],
  ['model', '^src/(?:model|machine-model|guide-model|preview-model|picture-model|shading)\\.ts$'],
  ['params', '^src/params\\.ts$'],
  ['contracts', '^src/contracts\\.ts$'],
  ['stages', `^src/${STAGES}/`],
  [
    'job and pipeline',
    '^src/(?:job/|(?:pipeline|box-nets|box-faces|card-files|item-[a-z]+|stamp-pages)\\.ts$)',
  ],
  ['page', '^src/page/'],
  ['cli', '^src/cli/'],
  ['main', '^src/main\\.ts$'],
];
const KNOWN = ROWS.map(([, path]) => path);

const rows = ROWS.slice(0, -1).map(([name, path], i) => ({
  name: `${name.replaceAll(' ', '-')}-import-only-upward`,
  severity: 'error',
  from: { path },
  to: { path: KNOWN.slice(i + 1) },
}));

const SVG_AND_PDF = '@svgdotjs/svg\\.js|pdfkit|@resvg/resvg-js';
const PICTURES = 'fast-png|jpeg-js';
const TERMINAL = 'commander|@commander-js/extra-typings|cli-progress';
/** Node's own modules that give the same everywhere. */
const REPEATABLE = 'zlib|util|buffer|url|path|stream|events|assert|crypto|module';

/** Only files under `room` may import `packages`. */
const only = (name, room, packages) => ({
  name,
  severity: 'error',
  from: { path: '^src/', pathNot: room },
  to: { path: `(?:^|/)node_modules/(?:${packages})/` },
});

module.exports = {
  forbidden: [
    ...rows,
    {
      name: 'stages-meet-in-the-model',
      comment: 'a stage folder knows the types of model.ts, never another stage',
      severity: 'error',
      from: { path: `^src/(${STAGES})/` },
      to: { path: `^src/${STAGES}/`, pathNot: '^src/$1/' },
    },
    {
      name: 'every-file-has-a-row',
      comment: 'a new room is added to the list above first',
      severity: 'error',
      from: {},
      to: { path: '^src/', pathNot: KNOWN },
    },
    only('only-geom-knows-paper-and-clipper', '^src/geom/', 'paper|clipper2-ts'),
    only('only-write-knows-svg-and-pdf', '^src/write/', SVG_AND_PDF),
    only('only-scan-knows-pictures', '^src/scan/', PICTURES),
    only('only-cli-knows-the-terminal', '^src/cli/', TERMINAL),
    {
      name: 'only-cli-and-main-touch-the-machine',
      comment: 'disk, clock, processes and the network belong to the command line',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/(?:cli/|main\\.ts$)' },
      to: {
        dependencyTypes: ['core'],
        pathNot: `^(?:node:)?(?:${REPEATABLE})(?:/|$)`,
      },
    },
    {
      name: 'src-needs-no-test',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^(?:test|dist|out)/' },
    },
    {
      name: 'src-needs-no-dev-package',
      comment: 'what src imports is in `dependencies`, or an installed copy of the program breaks',
      severity: 'error',
      from: { path: '^src/' },
      to: {
        dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'],
        dependencyTypesNot: ['type-only'],
      },
    },
    {
      name: 'no-cycles',
      severity: 'error',
      from: { path: '^src/' },
      to: { circular: true },
    },
    {
      name: 'everything-resolves',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    tsConfig: { fileName: 'tsconfig.json' },
    // Types count: a stage that needs another's type is as tied to it as one that calls it.
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'require', 'node', 'default', 'types'],
      mainFields: ['module', 'main', 'types', 'typings'],
      extensions: ['.ts', '.js', '.mjs', '.cjs', '.d.ts', '.json'],
    },
  },
};
