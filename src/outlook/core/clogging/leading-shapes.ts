const ROUNDS = 15;

/**
 * The few shapes along which rows vary most, each scaled by its size: rows ~ sum of scores times shapes. Rows are centred and weighted by the caller; the sum over the shapes of
 * their products is the leading part of rows' rows.
 *
 * Orthogonal iteration on the rows, started from the longest of them, so that the answer does not depend on chance.
 *
 * Source: principal components, standard form; orthogonal iteration as in textbooks of numerical linear algebra (from memory).
 *
 * @example leadingShapes([[3, 0], [0, 0]], 1) // => [[3, 0]]
 */
export function leadingShapes(rows: readonly (readonly number[])[], count: number): number[][] {
  const width = rows[0]?.length ?? 0;
  let basis = [...rows]
    .sort((a, b) => dot(b, b) - dot(a, a))
    .slice(0, count)
    .map((row) => [...row]);
  orthonormalise(basis);
  for (let round = 0; round < ROUNDS; round++) {
    basis = basis.map((vector) => {
      const image = Array.from({ length: width }, () => 0);
      for (const row of rows) {
        const score = dot(row, vector);
        for (let i = 0; i < width; i++) image[i] = (image[i] as number) + score * (row[i] as number);
      }
      return image;
    });
    orthonormalise(basis);
  }
  return basis.map((vector) => {
    const size = Math.sqrt(rows.reduce((sum, row) => sum + dot(row, vector) ** 2, 0));
    return vector.map((value) => value * size);
  });
}

function orthonormalise(vectors: number[][]): void {
  for (const [at, vector] of vectors.entries()) {
    for (const before of vectors.slice(0, at)) {
      const overlap = dot(vector, before);
      for (let i = 0; i < vector.length; i++) vector[i] = (vector[i] as number) - overlap * (before[i] as number);
    }
    const length = Math.sqrt(dot(vector, vector));
    for (let i = 0; i < vector.length; i++) vector[i] = length > 1e-150 ? (vector[i] as number) / length : 0;
  }
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
}
