/** How a second look is read, in units u (a sixth of the scale). */
export type LookSettings = {
  /** SD of what a seat sees at one look beyond merit and its own liking. */
  readonly noise: number;
  /** A difference within this of zero is one a seat cannot tell on average. */
  readonly tieHalfWidth: number;
  /** Share of a seat's liking for a puppy, as shown in its scores, that recurs in its look. */
  readonly carryOver: number;
};

export const lookSettings: LookSettings = { noise: 0.7, tieHalfWidth: 0.25, carryOver: 1 };
