/** The only status words of the pages, most urgent first. */
export const STANDINGS = ['overdue', 'due', 'no-data', 'watch', 'steady'] as const;
export type Standing = (typeof STANDINGS)[number];

export const STANDING_LABELS: Record<Standing, string> = { overdue: 'Overdue', due: 'Due', 'no-data': 'No data', watch: 'Watch', steady: 'Steady' };

/**
 * The rank of a standing: the more urgent, the smaller. A silent skid comes before one that is only watched, since nobody knows how it is.
 *
 * @example standingRank('overdue') // => 0
 */
export function standingRank(standing: Standing): number {
  return STANDINGS.indexOf(standing);
}
