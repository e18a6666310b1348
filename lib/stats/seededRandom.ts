/**
 * A small, fast source of repeatable draws: the same seed gives the same numbers on every machine (ST2).
 * Generator: sfc32 (Chris Doty-Humphrey, PractRand), 128 bits of state, written from the published recurrence.
 */
export type SeededRandom = {
  /** Uniform on the open interval (0, 1), 53 bits. */
  uniform(): number;
  /** Uniform whole number 0 … bound - 1, for a bound far below 2^32. */
  below(bound: number): number;
  /** Standard normal. */
  normal(): number;
  /** Gamma with the given shape (> 0) and scale 1. */
  gamma(shape: number): number;
};

/**
 * @param seed any number; only its 64-bit pattern matters.
 * Normal draws: the polar method (Marsaglia & Bray 1964). Gamma draws: Marsaglia & Tsang 2000.
 */
export function createSeededRandom(seed: number): SeededRandom {
  const next = createWordSource(seed);
  let spare: number | null = null;

  const uniform = (): number => ((next() >>> 5) * 67_108_864 + (next() >>> 6) + 0.5) / 9_007_199_254_740_992;
  const below = (bound: number): number => Math.floor(((next() >>> 0) / 4_294_967_296) * bound);

  function normal(): number {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * factor;
      return x * factor;
    }
  }

  function gamma(shape: number): number {
    if (shape < 1) return gamma(shape + 1) * uniform() ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v <= 0) continue;
      if (Math.log(uniform()) < 0.5 * x * x + d * (1 - v + Math.log(v))) return d * v;
    }
  }

  return { uniform, below, normal, gamma };
}

/**
 * A seed from numbers (FNV-1a over their bits). The order of the values matters: sort first where it must not.
 * Worked example: seedFromNumbers([1, 2]) differs from seedFromNumbers([2, 1]) and never changes between runs.
 */
export function seedFromNumbers(values: readonly number[]): number {
  const view = new DataView(new ArrayBuffer(8));
  let hash = 0x811c9dc5;
  for (const value of values) {
    view.setFloat64(0, value + 0); // -0 + 0 is 0: equal numbers, equal seeds.
    for (let byte = 0; byte < 8; byte += 1) hash = Math.imul(hash ^ view.getUint8(byte), 0x01000193);
  }
  return hash >>> 0;
}

function createWordSource(seed: number): () => number {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, seed + 0);
  let a = view.getInt32(0);
  let b = view.getInt32(4);
  let c = 0x9e3779b9 | 0;
  let counter = 1;
  const next = (): number => {
    const word = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + word) | 0;
    return word;
  };
  // Neighbouring seeds start alike; twenty rounds part them.
  for (let round = 0; round < 20; round += 1) next();
  return next;
}
