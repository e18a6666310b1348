type Init = {
  readonly method?: string;
  readonly headers?: HeadersInit;
  readonly body?: BodyInit | null | undefined;
  readonly signal?: AbortSignal | null | undefined;
};

const answerWithinMs = 15_000;

/**
 * Reads that get no answer in fifteen seconds are given up, so that they are made again on a link that lives: a browser
 * waits on a dead one for minutes. Writes are left to whoever makes them.
 */
export async function fetchInTime(input: RequestInfo | URL | string, { signal, body, ...init }: Init = {}): Promise<Response> {
  const call = new AbortController();
  const abort = () => call.abort();
  signal?.addEventListener('abort', abort);
  const reads = (init.method ?? 'GET') === 'GET';
  const timer = reads ? setTimeout(abort, answerWithinMs) : undefined;
  try {
    return await fetch(input, { ...init, body: body ?? null, signal: call.signal });
  } finally {
    clearTimeout(timer);
    signal?.removeEventListener('abort', abort);
  }
}
