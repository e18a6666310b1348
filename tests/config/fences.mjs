/**
 * Who may import whom. A breach of blindness is first of all an import in the wrong room, so the rooms are fenced by lint.
 * Everything is forbidden unless a line below allows it, packages and Node's own modules included.
 */

/** The first pattern that matches names the room, so inner rooms stand before the house part they lie in. */
const rooms = [
  ['statistics', 'lib/stats'],
  ['lib', 'lib'],
  ['unblinded', 'db/queries/unblinded'],
  ['db', 'db'],
  ['reveal', 'server/reveal'],
  ['live', 'server/live'],
  ['work', 'server/work'],
  ['server', 'server'],
  ['app', 'app'],
  ['tests', 'tests'],
].map(([type, pattern]) => ({ type, pattern, partialMatch: false }));

/** Files that a fence singles out inside a room. */
const singledOut = [
  { category: 'socketFile', pattern: 'server/live/socketIo*.ts' },
  { category: 'evaluationFile', pattern: 'lib/evaluation/**' },
  { category: 'writeFile', pattern: 'server/write/**' },
  { category: 'commandFile', pattern: 'server/commands/**' },
  { category: 'mediaFile', pattern: 'server/media/**' },
  { category: 'apiFile', pattern: 'server/api/**' },
  { category: 'generatorSettings', pattern: 'db/drizzle.config.ts' },
];

/** Small pure numeric packages that lib/stats may use once their error is measured against fixtures/reference. */
const numericPackages = [];

const allLib = ['lib', 'statistics'];
const allServer = ['server', 'reveal', 'live', 'work'];

const from = (...types) => ({ element: { types: { anyOf: types } } });
const fromFile = (category) => ({ file: { categories: category } });
const toFile = (category) => ({ to: { file: { categories: category } } });
const toRoom = (...types) => ({ to: { element: { types: { anyOf: types } } } });
const toPackage = (...source) => ({ to: { module: { origin: 'external', source } } });
const toNode = { to: { module: { origin: 'core' } } };
// An alias that resolves to no file counts as a package; it must not slip through the line that allows packages.
const toAnyPackage = toPackage('*', '!#*');

const storePackages = toPackage('drizzle-orm', 'better-sqlite3');

/** Later policies win over earlier ones. */
const policies = [
  { from: from(...allLib), allow: [toRoom(...allLib), toPackage('zod')] },
  ...(numericPackages.length > 0 ? [{ from: from('statistics'), allow: toPackage(...numericPackages) }] : []),

  { from: from('db', 'unblinded'), allow: [toRoom(...allLib, 'db'), storePackages, toPackage('zod'), toNode] },
  { from: from('unblinded'), allow: toRoom('unblinded') },
  { from: fromFile('generatorSettings'), allow: toPackage('drizzle-kit') },

  { from: from(...allServer), allow: [toRoom(...allLib, ...allServer, 'db'), toAnyPackage, toNode] },
  {
    from: from(...allServer),
    disallow: storePackages,
    message: 'The store is opened and queried in db/ only; ask there for a named query.',
  },
  {
    from: from('live', 'work'),
    disallow: toRoom('db'),
    message: 'Live transport and worker threads get what they need handed in; they do not read the store.',
  },
  {
    from: from(...allServer),
    disallow: toPackage('socket.io'),
    message: 'Only server/live/socketIo* knows the socket library; the hub and everybody else speak to the hub.',
  },
  { from: fromFile('socketFile'), allow: toPackage('socket.io') },
  {
    from: fromFile('socketFile'),
    disallow: [toFile('evaluationFile'), toFile('commandFile'), toRoom('db', 'unblinded', 'reveal')],
    message: 'The socket file is a doorbell: it knows no rule, no command and no score.',
  },
  { from: from('reveal'), allow: toRoom('unblinded') },
  {
    from: fromFile('writeFile'),
    disallow: [toRoom('reveal'), toFile('commandFile'), toFile('mediaFile'), toFile('apiFile')],
    message: 'The door of every change stands beneath what goes through it: reveal, commands, pictures and the API.',
  },
  {
    from: from('reveal'),
    disallow: [toFile('commandFile'), toFile('mediaFile'), toFile('apiFile')],
    message: 'Commands call the reveal, never the other way round.',
  },
  {
    from: fromFile('commandFile'),
    disallow: [toFile('mediaFile'), toFile('apiFile')],
    message: 'Requests come to commands through the API or the door for pictures; a command knows neither.',
  },

  {
    from: from('app'),
    allow: [toRoom('app', ...allLib), { ...toRoom(...allServer), dependency: { kind: 'type' } }, toAnyPackage],
  },
  {
    from: from('app'),
    disallow: [storePackages, toPackage('socket.io')],
    message: 'The browser side knows neither the store nor the server half of the socket library.',
  },

  { from: from('tests'), allow: [toRoom(...rooms.map((room) => room.type)), toAnyPackage, toNode] },
];

const houseParts = ['app', 'lib', 'db', 'server', 'tests'];
const partOf = (pattern) => houseParts.find((part) => pattern === part || pattern.startsWith(`${part}/`));

/** The parts of the house in which a policy's importing files lie. */
function partsFrom({ from: { element, file } }) {
  const patterns =
    file === undefined
      ? rooms.filter((room) => element.types.anyOf.includes(room.type)).map((room) => room.pattern)
      : singledOut.filter((one) => one.category === file.categories).map((one) => one.pattern);
  return patterns.map(partOf);
}

/** The fences of one part of the house. Only the policies that can speak of its files are asked: each costs some time for every import. */
function fencesOf(part) {
  return {
    settings: {
      'boundaries/elements': rooms,
      'boundaries/files': singledOut,
      'boundaries/dependency-nodes': ['import', 'export', 'dynamic-import', 'require'],
      'import/resolver': { typescript: { alwaysTryTypes: true } },
    },
    rules: {
      'boundaries/dependencies': [
        'error',
        {
          default: 'disallow',
          checkAllOrigins: true,
          checkUnknownLocals: true,
          checkInternals: true,
          policies: policies.filter((policy) => partsFrom(policy).includes(part)),
        },
      ],
      'boundaries/no-unknown-files': 'error',
    },
  };
}

export const fences = houseParts.map((part) => ({ part, ...fencesOf(part) }));
