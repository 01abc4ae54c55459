/** Days of the week as a form holds them, one digit each, 1 Monday to 7 Sunday: "12345"; and as the service does. */
export const daysText = (days: readonly number[]): string => days.join('');
export const daysOf = (text: string): number[] => Array.from(text, Number);
