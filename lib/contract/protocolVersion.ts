/** Rises whenever a live event or an entry changes its shape; a test holds it to the hash of both schemas. */
export const protocolVersion = 1;
