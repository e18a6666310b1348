import { request } from 'node:http';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { domainErrorCodes } from '#lib/errors';
import { parsePairs } from '#server/csv/parsePairs';
import { parseScores } from '#server/csv/parseScores';
import { listProcedures, type ListedProcedure } from '#tests/support/listProcedures';
import { sampleInput } from '#tests/support/sampleInput';
import { soundInputs } from '#tests/support/soundInputs';
import { bringTo } from '#tests/support/stages';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';
import { withoutTrace } from '#tests/support/withoutTrace';

/** Ten thousand inputs in the ordinary run; a hundred thousand as a part of the long check. */
const inputs = Number(process.env['FUZZ_INPUTS'] ?? 10_000);
const patience = Math.max(900_000, inputs * 30);
/** Milliseconds after which an answer is taken never to come. */
const silence = 60_000;
const seed = 20_261_125;
const perBatch = 10;

const odd: fc.Arbitrary<unknown> = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 200 }),
  fc.constantFrom(
    '',
    ' ',
    '0',
    '-1',
    '%00',
    '../../etc/passwd',
    "'; DROP TABLE entry; --",
    '\u0000',
    '\ud800',
    '𝔘',
    'x'.repeat(400),
    '__proto__',
    'constructor',
    'f'.repeat(32),
    'F'.repeat(32),
  ),
  fc.double(),
  fc.integer(),
  fc.constantFrom(null, true, false, 0, -0, 1e308, Number.MAX_SAFE_INTEGER, 2 ** 53, -1, 0.1),
  fc.array(fc.jsonValue({ maxDepth: 2 }), { maxLength: 4 }),
  fc.dictionary(fc.constantFrom('id', 'kind', '__proto__', 'length', 'toString', ''), fc.jsonValue({ maxDepth: 1 }), {
    maxKeys: 3,
  }),
);

/** Puts odd values into some of the places of a sound input, adds a place, or takes one away. */
const spoilt = (sound: unknown): fc.Arbitrary<unknown> =>
  fc
    .array(fc.tuple(fc.nat(30), odd, fc.constantFrom('replace', 'replace', 'remove', 'add')), {
      minLength: 1,
      maxLength: 3,
    })
    .map((changes) => {
      const copy: unknown = structuredClone(sound);
      for (const [at, value, how] of changes) {
        const places = placesIn(copy);
        const place = places[at % Math.max(1, places.length)];
        if (!place) return value;
        if (how === 'remove') Reflect.deleteProperty(place.holder, place.key);
        else Reflect.set(place.holder, how === 'add' ? 'more' : place.key, value);
      }
      return copy;
    });

type Place = { readonly holder: object; readonly key: string };

function placesIn(value: unknown): Place[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => [{ holder: value, key }, ...placesIn(inner)]);
}

type Answer = {
  readonly result?: unknown;
  readonly error?: { readonly message: string; readonly data: { readonly code: string; readonly httpStatus: number } };
};

async function ask(
  client: TestClient,
  kind: ListedProcedure['kind'],
  calls: readonly (readonly [string, unknown])[],
): Promise<readonly Answer[]> {
  const input = JSON.stringify(Object.fromEntries(calls.map(([, value], at) => [at, value])));
  const query = kind === 'query' ? `&input=${encodeURIComponent(input)}` : '';
  const response = await fetch(`${client.url}/api/trpc/${calls.map(([path]) => path).join(',')}?batch=1${query}`, {
    method: kind === 'query' ? 'GET' : 'POST',
    headers: { origin: client.url, cookie: client.cookie(), 'content-type': 'application/json' },
    body: kind === 'query' ? null : input,
  });
  const answer: unknown = await response.json();
  return Array.isArray(answer) ? (answer as readonly Answer[]) : calls.map(() => answer as Answer);
}

/** Granted, or refused under a code of the closed list. */
function faultOf({ error }: Answer): string | null {
  if (!error) return null;
  const known = domainErrorCodes.some((code) => code === error.data.code) && error.message === error.data.code;
  return known && error.data.httpStatus < 500 ? null : `${error.data.httpStatus} ${error.data.code}`;
}

it('BL2: whatever is put into any procedure, the answer is a result or a refusal with a code, and the server goes on', {
  timeout: patience,
}, async () => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, 'open');
  const sound = await soundInputs(quillmarsh);
  const clients = [quillmarsh.owner, quillmarsh.seats['mentor'] ?? server.stranger(), server.stranger()];
  const call = (kind: ListedProcedure['kind']) =>
    fc.constantFrom(...listProcedures().filter((one) => one.kind === kind)).chain(({ path, input }) => {
      const usual = sound[path] ?? (input ? sampleInput(input, { id: quillmarsh.id }) : {});
      return fc.tuple(fc.constant(path), fc.oneof(spoilt(usual), spoilt(usual), odd));
    });
  const batch = fc
    .constantFrom('query' as const, 'mutation' as const)
    .chain((kind) =>
      fc.tuple(fc.constant(kind), fc.nat(2), fc.array(call(kind), { minLength: perBatch, maxLength: perBatch })),
    );
  await fc.assert(
    fc.asyncProperty(batch, async ([kind, who, calls]) => {
      const client = clients[who] ?? quillmarsh.owner;
      const answers = await withoutTrace(server, () => ask(client, kind, calls));
      answers.forEach((answer, at) => expect([calls[at]?.[0], faultOf(answer)]).toEqual([calls[at]?.[0], null]));
    }),
    { seed, numRuns: Math.round((inputs * 0.8) / perBatch) },
  );
  expect(server.logged).toEqual([]);
  expect((await quillmarsh.owner.api.evaluation.get.query({ id: quillmarsh.id })).id).toBe(quillmarsh.id);
});

type Handshake = {
  readonly path: string;
  readonly method: string;
  readonly upgrade: boolean;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string;
};

/** Status of the answer, or why there was none. */
function shake({ url }: TestServer, { path, method, upgrade, headers, body }: Handshake): Promise<number | string> {
  return new Promise((settle) => {
    // At any other address an upgrade is let go without an answer, after a second.
    const socket =
      upgrade && path.startsWith('/socket.io/?')
        ? {
            connection: 'Upgrade',
            upgrade: 'websocket',
            'sec-websocket-version': '13',
            'sec-websocket-key': 'dGhlIHNhbXBsZSBub25jZQ==',
          }
        : {};
    const asked = request(
      `${url}${path}`,
      { method, headers: { ...socket, ...headers }, agent: false, timeout: silence },
      (response) => {
        response.resume();
        settle(response.statusCode ?? 0);
      },
    );
    asked.on('upgrade', (response, stream) => {
      stream.destroy();
      settle(response.statusCode ?? 0);
    });
    asked.on('error', (error) => settle(error.message));
    asked.on('timeout', () => asked.destroy(new Error('no answer')));
    asked.end(method === 'GET' ? undefined : body);
  });
}

it('BL3: whatever is put into the socket’s handshake, it is refused with a status below 500, and the server goes on', {
  timeout: patience,
}, async () => {
  await using server = await startTestServer();
  const owner = await server.owner();
  const text = fc.string({ unit: fc.constantFrom(...'abcXYZ019 _-=&%;:/.,"'), maxLength: 60 });
  const handshake: fc.Arbitrary<Handshake> = fc.record({
    path: fc
      .tuple(
        fc.constantFrom('/socket.io/', '/socket.io/', '/socket.io', '/socket.io/x'),
        text.map(encodeURIComponent),
        fc.constantFrom('polling', 'websocket', 'webtransport', 'none', ''),
      )
      .map(([path, sid, transport]) => `${path}?EIO=4&transport=${transport}${sid === '' ? '' : `&sid=${sid}`}`),
    method: fc.constantFrom('GET', 'POST', 'OPTIONS', 'DELETE'),
    upgrade: fc.boolean(),
    headers: fc.record({
      origin: fc.oneof(text, fc.constant(server.url), fc.constant('null')),
      cookie: fc.oneof(
        text,
        fc.constant(owner.cookie()),
        text.map((one) => `evenstack=${one}`),
      ),
    }),
    body: fc.string({ maxLength: 200 }),
  });
  await fc.assert(
    fc.asyncProperty(handshake, async (one) => {
      const status = await shake(server, one);
      // Who has a session and this origin may open one; everybody else is refused.
      const mayOpen = one.headers.origin === server.url && one.headers.cookie === owner.cookie();
      expect(typeof status === 'string' ? status : status < 500 && (mayOpen || status >= 400)).toBe(true);
    }),
    { seed, numRuns: Math.round(inputs * 0.05) },
  );
  // A refusal at the door is a line in the log: which one, and of what, never what was sent.
  expect(server.logged.filter((line) => !line.startsWith('refused ('))).toEqual([]);
  expect((await owner.api.session.me.query()).owner).toBe(true);
});

it('SC2: whatever a typed file holds, it is read whole or refused with its line and column', {
  timeout: patience,
}, () => {
  const cell = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 12 }),
    fc.constantFrom('Fern', 'mentor', 'neck', '5', '-3', '"', '""', '"a', 'a"b', ',', '1e9', ' 7 ', ''),
  );
  const row = fc.array(cell, { maxLength: 6 }).map((cells) => cells.join(','));
  const file = fc
    .tuple(
      fc.constantFrom(
        'puppy,evaluator,criterion,score',
        'first,second,choice',
        '\ufeffpuppy,evaluator,criterion,score',
        '',
      ),
      fc.array(row, { maxLength: 8 }),
      fc.constantFrom('\n', '\r\n', '\r', ''),
    )
    .map(([head, rows, end]) => [head, ...rows].join(end === '' ? '\n' : end));
  fc.assert(
    fc.property(file, (text) => {
      const scores = parseScores(text, { scale: { low: 1, high: 7 }, twoSided: new Set(), maxCharacters: 200_000 });
      for (const read of [scores, parsePairs(text, 200_000)]) {
        if ('error' in read)
          expect([read.error.line >= 0, read.error.column >= 0, read.error.message.length > 0]).toEqual([
            true,
            true,
            true,
          ]);
        else expect(Array.isArray(Object.values(read)[0])).toBe(true);
      }
    }),
    { seed, numRuns: Math.round(inputs * 0.15) },
  );
});
