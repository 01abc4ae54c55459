/** What a line of the list of tanks says beside its figures. */
export const coverWords = {
  suppliedBy: 'Filled by',
  suppliers: { us: 'us', client: 'the client' },
  moreCautions: 'More cautions',
  dayTank: (from: string) => `day tank, filled from ${from}`,
};
