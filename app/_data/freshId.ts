/** 128 random bits in hex, made on the device before anything is sent (SC2). Works on plain http, where randomUUID does not exist. */
export function freshId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
}
