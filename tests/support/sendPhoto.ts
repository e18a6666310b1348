import sharp from 'sharp';
import type { ShotKey } from '#lib/photo/shot';
import { systemRandom } from '#server/random';
import type { TestClient } from './testClient';

export type Sending = {
  readonly evaluation: string;
  readonly puppy: string;
  readonly bytes: Uint8Array;
  readonly id?: string;
  readonly view?: ShotKey;
  readonly taken?: number;
  readonly type?: string;
  /** Of the bytes as the device has them. */
  readonly hash?: string;
};

export type Sent = {
  readonly status: number;
  readonly id: string | null;
  readonly code: string | null /** The id and the hash that the server confirms. */;
  readonly kept: readonly [string | null, string | null];
};

/** Sends a picture as a device does: plain bytes under an id made beforehand. */
export async function sendPhoto(client: Pick<TestClient, 'url' | 'cookie'>, sending: Sending): Promise<Sent> {
  const {
    evaluation,
    puppy,
    bytes,
    id = systemRandom.id(),
    view = 'left-side',
    taken = 1,
    type = 'image/jpeg',
    hash,
  } = sending;
  const query = new URLSearchParams({
    evaluation,
    puppy,
    view,
    taken: String(taken),
    fair: 'yes',
    ...(hash === undefined ? {} : { hash }),
  });
  const headers = { origin: client.url, cookie: client.cookie(), 'content-type': type };
  const response = await fetch(`${client.url}/api/photo/${id}?${query}`, {
    method: 'POST',
    body: Buffer.from(bytes),
    headers,
  });
  const answer: unknown = await response.json();
  return {
    status: response.status,
    id: fieldOf(answer, 'id'),
    code: fieldOf(fieldOf(fieldOf(answer, 'error'), 'data'), 'code'),
    kept: [fieldOf(answer, 'sent'), fieldOf(answer, 'hash')],
  };
}

function fieldOf<T>(value: unknown, name: string): T | null {
  return typeof value === 'object' && value !== null && name in value
    ? ((value as Record<string, T>)[name] ?? null)
    : null;
}

/** A plain picture of one colour; another colour, another picture. */
export async function plainPicture(shade = 0, { width = 400, height = 300 } = {}): Promise<Buffer> {
  return sharp({
    create: { width, height, channels: 3, background: { r: shade % 256, g: Math.floor(shade / 256) % 256, b: 120 } },
  })
    .jpeg()
    .toBuffer();
}
