import { listProcedures } from './listProcedures';
import { sampleInput, type KnownFields } from './sampleInput';
import type { TestClient } from './testClient';

/** Asks every query there is, and answers what came back: status, headers and body, in order. The date of a header is the operating system's. */
export async function readEverything(
  client: TestClient,
  known: KnownFields,
  except: readonly string[] = [],
): Promise<string[]> {
  const heard: string[] = [];
  for (const { path, input } of listProcedures().filter((one) => one.kind === 'query' && !except.includes(one.path))) {
    const query = input ? `?input=${encodeURIComponent(JSON.stringify(sampleInput(input, known)))}` : '';
    const response = await fetch(`${client.url}/api/trpc/${path}${query}`, { headers: { cookie: client.cookie() } });
    const headers = [...response.headers].filter(([name]) => name !== 'date');
    heard.push(`${path} ${response.status}`, JSON.stringify(headers), await response.text());
  }
  return heard;
}
