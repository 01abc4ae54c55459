/** What a line of the list of tanks says beside its figures. */
export const coverWords = {
  suppliedBy: 'Filled by',
  suppliers: { us: 'us', client: 'the client' },
  dayTank: (from: string) => `day tank, filled from ${from}`,
};
