/**
 * Rises whenever anything that crosses the wire changes its shape, in either direction; tests/lib/contract.test.ts holds it to the
 * shapes of all procedures, of doorbells and of pictures' addresses.
 */
export const protocolVersion = 5;

/**
 * The header in which either side says its version. A page that has been open since before the server was renewed learns so from
 * any answer; what it wants to change is refused unread as other-version, and so never taken for faulty: it waits on the device.
 */
export const protocolHeader = 'evenstack-protocol';

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
