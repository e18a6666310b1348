import boundaries from 'eslint-plugin-boundaries';
import reactHooks from 'eslint-plugin-react-hooks';
import { defineConfig, globalIgnores } from 'eslint/config';
import tseslint from 'typescript-eslint';
import { fences } from './tests/config/fences.mjs';
import { houseRules } from './tests/config/houseRules.mjs';

const typescriptFiles = ['**/*.ts', '**/*.tsx'];
const inRooms = (...rooms) => rooms.flatMap((room) => [`${room}/**/*.ts`, `${room}/**/*.tsx`]);
/** Fences hold for plain JavaScript as well, or one renamed file would walk round them. */
const allInRooms = (...rooms) => [
  ...inRooms(...rooms),
  ...rooms.map((room) => `${room}/**/*.{js,mjs,cjs,jsx,mts,cts}`),
];

const syntax = {
  exportAll: { selector: 'ExportAllDeclaration', message: 'No barrels: import from the file that owns the name.' },
  computedImport: {
    selector: 'ImportExpression[source.type!="Literal"]',
    message: 'A computed import escapes the fences; name the file.',
  },
  clockObject: {
    selector: 'NewExpression[callee.name="Date"][arguments.length=0]',
    message: 'No clock in lib: take the time as an argument.',
  },
  clockCall: {
    selector: 'CallExpression[callee.name="Date"]',
    message: 'No clock in lib: take the time as an argument.',
  },
  listen: {
    selector: 'CallExpression[callee.property.name="listen"]',
    message: 'Only server/main.ts listens; build the server in createServer and hand it over.',
  },
  andJsx: {
    selector:
      'JSXExpressionContainer > LogicalExpression[operator="&&"]:matches([right.type="JSXElement"], [right.type="JSXFragment"])',
    message: 'Draw it as `condition ? <X /> : null`: a zero or an empty string on the left of && would be drawn.',
  },
  rawDetails: {
    selector: 'JSXOpeningElement[name.name="details"]',
    message: 'What folds away is a Disclosure (app/_parts).',
  },
  skippedTest: {
    selector:
      'MemberExpression[object.name=/^(it|test|describe|suite)$/][property.name=/^(skip|only|todo|skipIf|runIf|fixme|fails|fail|slow)$/]',
    message: 'No test is skipped, singled out or expected to fail.',
  },
  // The runners' own nets hold for all; a literal here would be a bound on how long a busy machine takes.
  ownTimeout: {
    selector:
      'Property[key.name="timeout"] > Literal, CallExpression[callee.name=/^(it|test|beforeAll|beforeEach|afterAll|afterEach)$/] > Literal.arguments:last-child[raw=/^\\d/], CallExpression[callee.property.name="setTimeout"][callee.object.name="test"] > Literal',
    message: 'A test fails by what it sees, never by how long it took: leave the time-out to the settings.',
  },
  stopwatch: {
    selector: 'CallExpression[callee.object.name="performance"][callee.property.name="now"]',
    message:
      'Measure with timed and hold it with holdTime (tests/support/latency.ts): times are held to bounds in check:long only.',
  },
};
const restrictSyntax = (...names) => ({ 'no-restricted-syntax': ['error', ...names.map((name) => syntax[name])] });

/** What would give lib a clock, chance, or a way out into the world. */
const impureGlobals = [
  'performance',
  'setTimeout',
  'setInterval',
  'setImmediate',
  'queueMicrotask',
  'requestAnimationFrame',
  'fetch',
  'XMLHttpRequest',
  'WebSocket',
  'Worker',
  'console',
  'process',
  'crypto',
  'globalThis',
  'window',
  'document',
  'navigator',
  'location',
  'localStorage',
  'sessionStorage',
  'indexedDB',
].map((name) => ({ name, message: 'lib is pure: no clock, no chance, no input or output.' }));

/** Plain mistakes that the core rules catch without types. */
const mistakes = Object.fromEntries(
  [
    'no-cond-assign',
    'no-constant-condition',
    'no-control-regex',
    'no-debugger',
    'no-dupe-else-if',
    'no-empty',
    'no-fallthrough',
    'no-irregular-whitespace',
    'no-misleading-character-class',
    'no-self-assign',
    'no-self-compare',
    'no-sparse-arrays',
    'no-unreachable-loop',
    'no-unsafe-finally',
    'no-unsafe-optional-chaining',
    'no-useless-catch',
    'no-useless-escape',
    'no-var',
    'prefer-const',
    'eqeqeq',
    'use-isnan',
  ].map((rule) => [rule, 'error']),
);

const typescriptRules = {
  '@typescript-eslint/no-explicit-any': 'error',
  '@typescript-eslint/no-non-null-assertion': 'error',
  '@typescript-eslint/no-floating-promises': 'error',
  '@typescript-eslint/switch-exhaustiveness-check': 'error',
  '@typescript-eslint/consistent-type-imports': ['error', { fixStyle: 'separate-type-imports' }],
  '@typescript-eslint/consistent-type-exports': 'error',
  '@typescript-eslint/no-import-type-side-effects': 'error',
  // A leading underscore marks an argument that a signature demands and the body does not need.
  '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
  // Functions that answer a promise by contract need not await inside.
  '@typescript-eslint/require-await': 'off',
};

export default defineConfig(
  globalIgnores([
    'node_modules/',
    '.next/',
    'dist/',
    'data/',
    'next-env.d.ts',
    'tests/e2e/out/',
    '.check-long/',
    'public/',
  ]),
  {
    linterOptions: { reportUnusedDisableDirectives: 'error', reportUnusedInlineConfigs: 'error' },
    plugins: { house: houseRules },
    rules: { ...mistakes, 'house/file-name': 'error', 'house/disable-reason': 'error' },
  },
  {
    files: typescriptFiles,
    extends: [tseslint.configs.recommendedTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: { ...typescriptRules, 'no-console': 'error', ...restrictSyntax('exportAll', 'computedImport') },
  },
  ...fences.map(({ part, ...fence }) => ({ files: allInRooms(part), plugins: { boundaries }, ...fence })),
  { files: inRooms('app', 'server'), rules: { 'house/stale-read': 'error' } },
  {
    files: inRooms('app', 'server', 'db', 'lib'),
    rules: {
      'max-lines': ['error', 300],
      'max-lines-per-function': ['error', 60],
      'max-params': ['error', 3],
    },
  },
  // A form lists its fields with a line for each attribute, which makes none of it harder to follow.
  { files: ['app/**/*.tsx'], rules: { 'max-lines-per-function': ['error', 80] } },
  {
    files: allInRooms('lib'),
    rules: {
      ...restrictSyntax('exportAll', 'computedImport', 'clockObject', 'clockCall'),
      'no-restricted-globals': ['error', ...impureGlobals],
      'no-restricted-properties': [
        'error',
        { object: 'Date', property: 'now', message: 'No clock in lib: take the time as an argument.' },
        { object: 'Math', property: 'random', message: 'No chance in lib: take a seeded source as an argument.' },
      ],
    },
  },
  {
    files: inRooms('server'),
    ignores: ['server/main.ts'],
    rules: restrictSyntax('exportAll', 'computedImport', 'listen'),
  },
  { files: ['server/main.ts', 'server/cli/**/*.ts'], rules: { 'no-console': 'off' } },
  {
    files: inRooms('app'),
    extends: [reactHooks.configs.flat.recommended],
    rules: {
      ...restrictSyntax('exportAll', 'computedImport', 'andJsx', 'rawDetails'),
      // The whole of zod is 91 KB in the browser, the small build 4 KB (both compressed).
      '@typescript-eslint/no-restricted-imports': [
        'error',
        { paths: [{ name: 'zod', message: "Use 'zod/mini' in the browser.", allowTypeImports: true }] },
      ],
    },
  },
  { files: ['app/_parts/Disclosure.tsx'], rules: restrictSyntax('exportAll', 'computedImport', 'andJsx') },
  {
    files: inRooms('tests'),
    rules: {
      ...restrictSyntax('exportAll', 'skippedTest'),
      // tests/support/failOnConsole.ts turns anything printed into a failure, which is stricter than this rule.
      'no-console': 'off',
      // expect(object.method) hands the method over without calling it.
      '@typescript-eslint/unbound-method': 'off',
      'no-restricted-properties': [
        'error',
        ...['mock', 'doMock'].map((property) => ({
          object: 'vi',
          property,
          message: 'No mocks of our own code: hand the other part in.',
        })),
      ],
    },
  },
  {
    files: ['tests/**/*.test.ts', 'tests/**/*.spec.ts'],
    rules: restrictSyntax('exportAll', 'skippedTest', 'ownTimeout', 'stopwatch'),
  },
);
