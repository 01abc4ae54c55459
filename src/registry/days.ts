/** Days are dates without a time in the database and text in the API. */
export const dayOf = (date: Date): string => date.toISOString().slice(0, 10);
export const dayOrNull = (date: Date | null): string | null => (date === null ? null : dayOf(date));
export const dateOf = (day: string): Date => new Date(`${day}T00:00:00Z`);
