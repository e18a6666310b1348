import { protocolHeader, serverMark } from '#lib/contract/wire';
import { hearVersion } from './otherVersion';

type Init = {
  readonly method?: string;
  readonly headers?: HeadersInit;
  readonly body?: BodyInit | null | undefined;
  readonly signal?: AbortSignal | null | undefined;
};

type Ways = {
  readonly fetch: (input: RequestInfo | URL | string, init: RequestInit) => Promise<Response>;
  readonly answerWithinMs: number;
};

/** A browser waits on a dead link for minutes. */
const usual: Ways = { fetch: (input, init) => fetch(input, init), answerWithinMs: 10_000 };
/** Work that takes the server longer than a link may be silent, by the procedure's path. */
const longWorkMs = 60_000;
const longWork = /\/(?:demo\.enter|demo\.playToReveal)(?:[?,]|$)/;

/** There was no answer of the server's: its kind tells a person why, as far as that can be known here. */
export class NoAnswer extends Error {
  readonly why: 'late' | 'stranger';
  /** The status with which somebody on the way answered. */
  readonly status: number;

  constructor(why: NoAnswer['why'], status = 0) {
    super(why === 'late' ? 'no answer in time' : 'another than the server answered');
    this.why = why;
    this.status = status;
  }
}

/**
 * One call to the server, which ends: with its answer, read to the end, or with NoAnswer after ten seconds. What does not
 * bear the server's mark is a stranger's (a network's sign-in page answers 200 to everything) and no answer, whatever it says.
 */
export async function fetchInTime(
  input: RequestInfo | URL | string,
  { signal, body, ...init }: Init = {},
  ways: Ways = usual,
): Promise<Response> {
  const call = new AbortController();
  const abort = () => call.abort();
  signal?.addEventListener('abort', abort);
  if (signal?.aborted === true) abort();
  const late = { yes: false };
  const patience = longWork.test(input instanceof Request ? input.url : input.toString())
    ? longWorkMs
    : ways.answerWithinMs;
  const timer = setTimeout(() => {
    late.yes = true;
    abort();
  }, patience);
  try {
    // Past the browser's store: a stranger may have said that its page is good for an hour.
    const response = await ways.fetch(input, { ...init, cache: 'no-store', body: body ?? null, signal: call.signal });
    if (response.headers.get(serverMark.name) !== serverMark.value) throw new NoAnswer('stranger', response.status);
    hearVersion(response.headers.get(protocolHeader));
    // To the end, within the same time: a link may die in the middle of an answer.
    return new Response(await response.text(), {
      status: response.status,
      statusText: response.statusText,
      headers: response.headers,
    });
  } catch (error) {
    throw late.yes ? new NoAnswer('late') : error;
  } finally {
    clearTimeout(timer);
    signal?.removeEventListener('abort', abort);
  }
}
