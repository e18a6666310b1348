import { normalCdf } from '#lib/stats/normalDistribution';
import type { LookAnswer } from '../panel/panel';
import type { LookSettings } from './lookSettings';

/**
 * What keeps an answer from counting against the puppy it names (ST5). A look follows the seat's perceived merit, m_p + (πβ)_pj, the same weighted
 * quality as merit with the seat's liking in it. In a few panels, where criteria differ much in noise or the seat missed some, an answer for a puppy would
 * so say more of the seat's liking for it, which its scores then owe less merit to, than of its merit: given the scores and the SDs, what the seat sees falls with
 * merit. It is lifted by so many times the difference in merit that it no longer does, and such a look then tells nothing either way.
 * @param merit difference in merit by standard normals, `liked` the difference in the seat's liking.
 */
export function liftOf(merit: Float64Array, liked: Float64Array, carryOver: number): number {
  let [variance, covariance] = [0, 0];
  merit.forEach((value, at) => {
    variance += value ** 2;
    covariance += value * (value + carryOver * liked[at]);
  });
  return variance > 0 ? Math.max(0, -covariance / variance) : 0;
}

/** Between which marks (units u) the seat's view of first minus second fell, its look noise in it. */
export function answerInterval(
  choice: LookAnswer['choice'],
  { tieHalfWidth }: LookSettings,
): readonly [number, number] {
  if (choice === 'first') return [tieHalfWidth, Infinity];
  return choice === 'second' ? [-Infinity, -tieHalfWidth] : [-tieHalfWidth, tieHalfWidth];
}

/** Chance of an answer when the seat's view of first minus second is `gap` (units u). The three chances sum to 1. */
export function answerChance(choice: LookAnswer['choice'], gap: number, settings: LookSettings): number {
  const { noise, tieHalfWidth } = settings;
  if (choice === 'first') return normalCdf((gap - tieHalfWidth) / noise);
  if (choice === 'second') return normalCdf((-gap - tieHalfWidth) / noise);
  const away = Math.abs(gap);
  return normalCdf((tieHalfWidth - away) / noise) - normalCdf((-tieHalfWidth - away) / noise);
}
