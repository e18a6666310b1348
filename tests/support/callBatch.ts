import { headersOf } from './callProcedure';
import type { ListedProcedure } from './listProcedures';

type Caller = { readonly url: string; cookie(): string };
/** Each call's refusal, null for a grant; and the answer as it came. */
type Batch = { readonly codes: readonly (string | null)[]; readonly body: string; readonly headers: string };
type Call = { readonly procedure: Pick<ListedProcedure, 'path' | 'kind'>; readonly input: unknown };

/** Several calls of one kind in one request, as a client that batches makes them. */
export async function callBatch(caller: Caller, kind: ListedProcedure['kind'], calls: readonly Call[]): Promise<Batch> {
  const headers: Record<string, string> = { origin: caller.url, 'content-type': 'application/json' };
  if (caller.cookie() !== '') headers['cookie'] = caller.cookie();
  const input = JSON.stringify(
    Object.fromEntries(calls.flatMap((call, at) => (call.input === undefined ? [] : [[at, call.input]]))),
  );
  const paths = calls.map((call) => call.procedure.path).join(',');
  const query = kind === 'query' ? `&input=${encodeURIComponent(input)}` : '';
  const response = await fetch(`${caller.url}/api/trpc/${paths}?batch=1${query}`, {
    method: kind === 'query' ? 'GET' : 'POST',
    headers,
    body: kind === 'query' ? null : input,
  });
  const body = await response.text();
  const answers = JSON.parse(body) as readonly { readonly error?: { readonly data: { readonly code: string } } }[];
  return { codes: answers.map((answer) => answer.error?.data.code ?? null), body, headers: headersOf(response) };
}
