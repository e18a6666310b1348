/**
 * The header in which a page sends the id of a change: made before it is sent, and the same when it is sent again because no
 * answer came. What the change makes is made under it once (SC2).
 */
export const callHeader = 'evenstack-call';
