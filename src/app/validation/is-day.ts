import { ValidateBy, type ValidationOptions } from 'class-validator';

/** Other centuries are slips of the keyboard. */
const DAY = /^(19|20|21)\d{2}-\d{2}-\d{2}$/;
const MOMENT = /^(\d{4}-\d{2}-\d{2})T([01]\d|2[0-3]):[0-5]\d(:[0-5]\d(\.\d{1,9})?)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;

/** A day that the calendar has, as YYYY-MM-DD. */
export function isDay(value: unknown): value is string {
  if (typeof value !== 'string' || !DAY.test(value)) return false;
  const date = new Date(`${value}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(value);
}

/** A moment in ISO 8601 that says its offset, so that it means the same everywhere. */
function isMoment(value: unknown): value is string {
  return typeof value === 'string' && isDay(MOMENT.exec(value)?.[1]);
}

export const IsDay = (options?: ValidationOptions) =>
  ValidateBy(
    { name: 'isDay', validator: { validate: isDay, defaultMessage: () => '$property must be a day that the calendar has, such as 2026-11-30' } },
    options,
  );

export const IsMoment = () =>
  ValidateBy({
    name: 'isMoment',
    validator: {
      validate: isMoment,
      defaultMessage: () => '$property must be a moment with its offset, such as 2026-11-30T14:05:00Z or 2026-11-30T15:05:00+01:00',
    },
  });
