/** In which order to eliminate the unknowns of a symmetric system, and which entries of L that leaves. */
export type EliminationOrder = {
  /** order[position] = index eliminated there. */
  readonly order: Int32Array;
  /** Per position, ascending positions after it that its elimination touches: the pattern of that column of L. */
  readonly patterns: readonly Int32Array[];
};

/**
 * Minimum-degree ordering: next goes the unknown tied to the fewest others, which are then tied to one another
 * (fill).
 *
 * Of crossed and nested designs it eliminates the levels with few observations first, so that L stays sparse.
 * In: dense row-major n × n; only zero or not matters. Ties go to the smaller index.
 *
 * Source: George & Liu 1989, The evolution of the minimum degree ordering algorithm (explicit elimination graph).
 *
 * @example A star: 0 touches 1, 2 and 3, which do not touch each other. Its leaves go first and nothing fills in.
 * const star = Float64Array.of(3, 1, 1, 1, 1, 2, 0, 0, 1, 0, 2, 0, 1, 0, 0, 2)
 * eliminationOrder(star, 4) // { "order": [1, 2, 0, 3], "patterns": [[2], [2], [3], []] }
 */
export function eliminationOrder(matrix: Float64Array, n: number): EliminationOrder {
  const words = (n + 31) >>> 5;
  const graph = adjacency(matrix, n);
  const degree = new Int32Array(n);
  for (let v = 0; v < n; v += 1) degree[v] = bitCount(graph, v * words, words);
  const order = new Int32Array(n);
  const position = new Int32Array(n);
  const neighbours: Int32Array[] = [];
  const gone = new Uint8Array(n);
  for (let step = 0; step < n; step += 1) {
    const pivot = smallestDegree(degree, gone);
    order[step] = pivot;
    position[pivot] = step;
    gone[pivot] = 1;
    const near = membersOf(graph, pivot * words, words);
    neighbours.push(near);
    for (const v of near) {
      for (let w = 0; w < words; w += 1)
        graph[v * words + w] = word(graph, v * words + w) | word(graph, pivot * words + w);
      clearBit(graph, v * words, v);
      clearBit(graph, v * words, pivot);
      degree[v] = bitCount(graph, v * words, words);
    }
  }
  const patterns = neighbours.map((near) => near.map((v) => position[v]).sort());
  return { order, patterns };
}

function adjacency(matrix: Float64Array, n: number): Int32Array {
  const words = (n + 31) >>> 5;
  const graph = new Int32Array(n * words);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      if (i !== j && matrix[i * n + j] !== 0)
        graph[i * words + (j >>> 5)] = word(graph, i * words + (j >>> 5)) | (1 << (j & 31));
    }
  }
  return graph;
}

function smallestDegree(degree: Int32Array, gone: Uint8Array): number {
  let best = -1;
  let least = Infinity;
  for (let v = 0; v < degree.length; v += 1) {
    const d = degree[v];
    if (gone[v] === 0 && d < least) {
      least = d;
      best = v;
    }
  }
  return best;
}

function membersOf(graph: Int32Array, start: number, words: number): Int32Array {
  const members = new Int32Array(bitCount(graph, start, words));
  let count = 0;
  for (let w = 0; w < words; w += 1) {
    let bits = word(graph, start + w);
    while (bits !== 0) {
      const lowest = bits & -bits;
      members[count] = w * 32 + (31 - Math.clz32(lowest));
      count += 1;
      bits ^= lowest;
    }
  }
  return members;
}

function bitCount(graph: Int32Array, start: number, words: number): number {
  let count = 0;
  for (let w = 0; w < words; w += 1) {
    let v = word(graph, start + w);
    v -= (v >>> 1) & 0x55555555;
    v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
    count += Math.imul((v + (v >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
  }
  return count;
}

function clearBit(graph: Int32Array, start: number, bit: number): void {
  graph[start + (bit >>> 5)] = word(graph, start + (bit >>> 5)) & ~(1 << (bit & 31));
}

const word = (graph: Int32Array, at: number): number => graph[at];
