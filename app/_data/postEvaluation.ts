import { z } from 'zod/mini';
import { protocolHeader, protocolVersion, serverMark } from '#lib/contract/wire';
import { hearVersion } from './otherVersion';

/** The server's refusal of a file, as tRPC's own: words are made of its code and details. */
class EvaluationRefused extends Error {
  readonly data: { readonly code: string; readonly details: Readonly<Record<string, unknown>> };

  constructor(code: string, details: EvaluationRefused['data']['details']) {
    super('refused');
    this.data = { code, details };
  }
}

const takenSchema = z.object({ id: z.string() });
const refusedSchema = z.object({
  error: z.object({ data: z.object({ code: z.string(), details: z.optional(z.record(z.string(), z.unknown())) }) }),
});

/**
 * Sends an evaluation's file, telling the share that is out; answers its id once the server has said that it holds it. Rejects with the
 * server's refusal, or with an error without `data` where there was no answer of ours.
 */
export function postEvaluation(file: Blob, onShare: (share: number) => void): Promise<string> {
  return new Promise((resolve, reject) => {
    // Not fetch: only this tells how much of a body has gone out.
    const request = new XMLHttpRequest();
    request.open('POST', '/api/evaluation');
    request.setRequestHeader('Content-Type', 'application/octet-stream');
    request.setRequestHeader(protocolHeader, String(protocolVersion));
    request.upload.onprogress = ({ loaded, total }) => onShare(total === 0 ? 0 : loaded / total);
    request.upload.onload = () => onShare(1);
    request.onerror = () => reject(new Error('no answer'));
    request.onload = () => {
      if (request.getResponseHeader(serverMark.name) !== serverMark.value)
        return reject(new Error('no answer of ours'));
      hearVersion(request.getResponseHeader(protocolHeader));
      const taken = takenSchema.safeParse(parsed(request.responseText));
      if (request.status === 200 && taken.success) return resolve(taken.data.id);
      const refusal = refusedSchema.safeParse(parsed(request.responseText));
      reject(
        refusal.success
          ? new EvaluationRefused(refusal.data.error.data.code, refusal.data.error.data.details ?? {})
          : new Error('no answer of ours'),
      );
    };
    request.send(file);
  });
}

function parsed(body: string): unknown {
  try {
    return JSON.parse(body);
  } catch {
    return null;
  }
}
