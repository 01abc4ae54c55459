/** Marks on the line of a tour, drawn around the point that they mark. */

/** An anchor: what is agreed on holds its place */
export const ANCHOR = 'M0 -9a2.5 2.5 0 1 0 0.01 0M0 -4V8M-4 -1H4M-6 3C-5 7 -2 8 0 8C2 8 5 7 6 3';
/** A crescent: the night is spent away from home */
export const NIGHT = 'M2 -6A6 6 0 1 0 6 3A5 5 0 0 1 2 -6Z';
/** Two thin lines with nothing between them: the break */
export const breakPath = (from: number, until: number, y: number): string =>
  [y - 3, y + 3].map((line) => `M${from.toFixed(1)} ${line}H${until.toFixed(1)}`).join('');
