import { createHash } from 'node:crypto';
import { buffer } from 'node:stream/consumers';
import yauzl from 'yauzl';
import yazl from 'yazl';
import { type EvaluationFile, evaluationFileName } from '#lib/contract/evaluationFile';
import type { TestClient } from './testClient';

export type Fetched = { readonly status: number; readonly code: string | null; readonly bytes: Buffer };

/** Asks for one evaluation as a file, as the button does. */
export async function fetchEvaluation(client: Pick<TestClient, 'url' | 'cookie'>, id: string): Promise<Fetched> {
  const response = await fetch(`${client.url}/api/evaluation/${id}`, { headers: { cookie: client.cookie() } });
  const bytes = Buffer.from(await response.arrayBuffer());
  return { status: response.status, code: response.ok ? null : refusalIn(bytes).code, bytes };
}

export type Brought = {
  readonly status: number;
  readonly id: string | null;
  readonly code: string | null;
  readonly message: string | null;
};

/** Brings a file in, as the start page does. */
export async function bringEvaluation(client: Pick<TestClient, 'url' | 'cookie'>, bytes: Uint8Array): Promise<Brought> {
  const response = await fetch(`${client.url}/api/evaluation`, {
    method: 'POST',
    body: Buffer.from(bytes),
    headers: { cookie: client.cookie(), origin: client.url },
  });
  const body = Buffer.from(await response.arrayBuffer());
  if (!response.ok) return { status: response.status, id: null, ...refusalIn(body) };
  return { status: response.status, id: (JSON.parse(body.toString()) as { id: string }).id, code: null, message: null };
}

function refusalIn(body: Buffer): { readonly code: string | null; readonly message: string | null } {
  const { error } = JSON.parse(body.toString()) as {
    error?: { data?: { code?: string; details?: { message?: string } } };
  };
  return { code: error?.data?.code ?? null, message: error?.data?.details?.message ?? null };
}

export type Parts = Map<string, Buffer>;

/** What lies in a zip, by name. */
export async function unzipped(bytes: Buffer): Promise<Parts> {
  const zip = await yauzl.fromBufferPromise(bytes, { lazyEntries: true });
  const parts: Parts = new Map();
  for await (const entry of zip.eachEntry())
    parts.set(entry.fileName, await buffer(await zip.openReadStreamPromise(entry)));
  return parts;
}

/** A zip of these parts, in this order; a name may come twice. */
export async function zipped(parts: Iterable<readonly [string, Uint8Array]>): Promise<Buffer> {
  const zip = new yazl.ZipFile();
  for (const [name, bytes] of parts) zip.addBuffer(Buffer.from(bytes), name);
  zip.end();
  return buffer(zip.outputStream);
}

/** The text in a zip as this app writes it; the schema's own parse is left to the server. */
export const textOf = (parts: Parts): EvaluationFile =>
  JSON.parse(parts.get(evaluationFileName)?.toString() ?? '') as EvaluationFile;

/** The same zip with its text changed. */
export async function withText(bytes: Buffer, change: (file: Mutable<EvaluationFile>) => void): Promise<Buffer> {
  const parts = await unzipped(bytes);
  const file: Mutable<EvaluationFile> = textOf(parts);
  change(file);
  parts.set(evaluationFileName, Buffer.from(JSON.stringify(file)));
  return zipped(parts);
}

type Mutable<T> = T extends readonly (infer One)[]
  ? Mutable<One>[]
  : T extends object
    ? { -readonly [K in keyof T]: Mutable<T[K]> }
    : T;

export const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
