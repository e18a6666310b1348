import type { ListedProcedure } from './listProcedures';

export type Answered = {
  readonly status: number;
  readonly body: string;
  readonly code: string | null /** As a text; the date, which is the operating system's, left out. */;
  readonly headers: string;
};
type Caller = { readonly url: string; cookie(): string };

/** One plain call over HTTP, as any client could make it; the answer as bytes, and the refusal's code if it was one. */
export async function callProcedure(
  caller: Caller,
  { path, kind }: Pick<ListedProcedure, 'path' | 'kind'>,
  input: unknown,
): Promise<Answered> {
  const headers: Record<string, string> = { origin: caller.url, 'content-type': 'application/json' };
  if (caller.cookie() !== '') headers['cookie'] = caller.cookie();
  const json = JSON.stringify(input);
  // A change that takes nothing still has a body over HTTP: the batch form's, without an entry.
  const empty = kind === 'mutation' && json === undefined;
  const query = kind === 'query' && json !== undefined ? `?input=${encodeURIComponent(json)}` : empty ? '?batch=1' : '';
  const response = await fetch(`${caller.url}/api/trpc/${path}${query}`, {
    method: kind === 'query' ? 'GET' : 'POST',
    headers,
    body: kind === 'query' ? null : (json ?? '{}'),
  });
  const body = await response.text();
  const code = /"error":.*"code":"([a-z-]+)"/.exec(body)?.[1] ?? null;
  return { status: response.status, body, code, headers: headersOf(response) };
}

export function headersOf(response: Response): string {
  return JSON.stringify([...response.headers].filter(([name]) => name !== 'date'));
}
