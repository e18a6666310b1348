/** The server's word for refusing a call, as a client reads it; `no answer` when there was none. */
export function codeOf(error: unknown): string {
  if (typeof error !== 'object' || error === null || !('data' in error)) return 'no answer';
  const { data } = error;
  return typeof data === 'object' && data !== null && 'code' in data ? String(data.code) : 'no answer';
}
