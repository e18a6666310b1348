import { hash } from 'node:crypto';

export type RecordLine = {
  readonly previousHash: string;
  readonly seq: number;
  readonly evaluationId: string | null;
  readonly at: number;
  readonly actor: string;
  readonly kind: string;
  readonly detail: string;
};

/** The hash of one line of the record: SHA-256 over a JSON array of its parts, the hash of the line before first. */
export function recordHash({ previousHash, seq, evaluationId, at, actor, kind, detail }: RecordLine): string {
  return hash('sha256', JSON.stringify([previousHash, seq, evaluationId, at, actor, kind, detail]), 'hex');
}
