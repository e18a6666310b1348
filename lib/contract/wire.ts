/** Rises whenever a live event or an entry changes its shape; a test holds it to the hash of both schemas. */
export const protocolVersion = 1;

/**
 * The header that every answer of this server bears. On the way to it others may answer in its name: a hotel's sign-in page
 * answers 200 to everything. What does not bear it is not ours, whatever its status says. It is no secret and proves nothing
 * against whoever means to deceive; that is what TLS is for.
 */
export const serverMark = { name: 'evenstack-answer', value: 'own' } as const;

/**
 * The header in which a page sends the id of a change: made before it is sent, and the same when it is sent again because no
 * answer came. What the change makes is made under it once (SC2).
 */
export const callHeader = 'evenstack-call';
