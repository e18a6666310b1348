import type { Collar } from '#lib/contract/collar';

/**
 * The colour of a real collar, whatever the theme: identity only, never a status, and never without its word.
 * Drawn with an outline of ink, since some are close to the paper.
 */
export const collarColour: Readonly<Record<Collar, string>> = {
  blue: '#2f6fb0',
  amber: '#c98f1e',
  red: '#b3312f',
  green: '#3a7d44',
  white: '#ffffff',
  purple: '#7d3c98',
  black: '#1b1b1b',
  pink: '#e58fb0',
  brown: '#7a5334',
  orange: '#e0772a',
  yellow: '#f0d43a',
  grey: '#8e8e8e',
  turquoise: '#2bb3b1',
  none: 'none',
};
