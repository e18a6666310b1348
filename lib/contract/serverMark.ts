/**
 * The header that every answer of this server bears. On the way to it others may answer in its name: a hotel's sign-in page
 * answers 200 to everything. What does not bear it is not ours, whatever its status says. It is no secret and proves nothing
 * against whoever means to deceive; that is what TLS is for.
 */
export const serverMark = { name: 'evenstack-answer', value: 'own' } as const;
