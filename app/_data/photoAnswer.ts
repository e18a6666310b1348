import { serverMark } from '#lib/contract/wire';

/** What came back for one picture, by whomever. */
type PhotoReply = {
  readonly status: number /** Of the header by which the server marks its answers. */;
  readonly mark: string | null;
  readonly body: string;
};

/** `hash` of the bytes that were sent: SHA-256 in hex. */
type SentPhoto = { readonly id: string; readonly hash: string };

/** Why a picture is not on the server, for words and for what to do next. */
export class PhotoRefused extends Error {
  readonly data: { readonly code: string };

  constructor(code: string) {
    super('refused');
    this.data = { code };
  }
}

/** What lies in the way there, not in the picture: it may pass, in another network if not in this one. */
export const refusedOnWay: ReadonlySet<string> = new Set(['way-too-large', 'way-refused', 'file-damaged']);

/**
 * Null when the server has this very picture: its own answer, with the id and the hash of the bytes that were sent. Else why
 * not: the server's refusal, somebody else's on the way, or an error without `data` where there was no answer of ours.
 * A network's sign-in page says 200 to everything, with or without a page.
 */
export function faultOf({ status, mark, body }: PhotoReply, { id, hash }: SentPhoto): Error | null {
  const noAnswer = new Error('no answer of ours');
  if (mark !== serverMark.value) {
    // A gateway that finds no server, and a network that wants a sign-in (RFC 6585, 6), have refused nothing.
    if (status < 400 || status >= 500) return noAnswer;
    return new PhotoRefused(status === 413 ? 'way-too-large' : 'way-refused');
  }
  const answer = parsed(body);
  if (status === 200) return field(answer, 'sent') === id && field(answer, 'hash') === hash ? null : noAnswer;
  const code = field(field(field(answer, 'error'), 'data'), 'code');
  return typeof code === 'string' ? new PhotoRefused(code) : noAnswer;
}

function parsed(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch {
    return null;
  }
}

function field(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null
    ? Object.entries(value).find(([key]) => key === name)?.[1]
    : undefined;
}
