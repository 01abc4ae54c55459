/** Words that the pages and the reports have in common. Another language is another file of this type. */
export const sharedWords = {
  locale: 'en-GB',
  none: '–',
  trend: {
    of: 'of',
    baseline: 'Baseline',
    nothing: 'Nothing has been measured yet. Load a log or enter a hand reading.',
    noOutlook: 'There is no forecast yet.',
    never: (limit: string) => `Not expected to reach the ${limit} within two years.`,
    hardly: (limit: string, early: string) => `More likely than not, the ${limit} is not reached within two years (1 in 10 chance before ${early}).`,
    crossingOpen: (limit: string, likely: string, early: string) =>
      `Expected to reach the ${limit} around ${likely}, but not certainly within two years (1 in 10 chance before ${early}).`,
    crossing: (limit: string, likely: string, early: string, late: string) =>
      `Expected to reach the ${limit} around ${likely} (8 in 10 chance between ${early} and ${late}).`,
  },
} as const;
