/** The code of a refusal and its details (ids, limits, the place of a fault); null when the server did not refuse. */
export function refusalDetails(error: unknown): { readonly code: string; readonly details: Readonly<Record<string, unknown>> } | null {
  if (!isRecord(error) || !isRecord(error.data) || typeof error.data.code !== 'string') return null;
  return { code: error.data.code, details: isRecord(error.data.details) ? error.data.details : {} };
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}
