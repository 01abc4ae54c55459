/** 1 Monday to 7 Sunday, of a local date. */
export const weekdayNo = (day: string): number => new Date(`${day}T00:00:00Z`).getUTCDay() || 7;
