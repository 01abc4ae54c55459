import { ValidateBy } from 'class-validator';

/** Names only: an offset such as +01:00 means the opposite to the database, and knows no summer time. */
const NAME = /^[A-Za-z]+(?:\/[A-Za-z0-9_+-]+)*$/;

function isZone(value: unknown): value is string {
  if (typeof value !== 'string' || !NAME.test(value)) return false;
  try {
    new Intl.DateTimeFormat('en', { timeZone: value });
    return true;
  } catch {
    return false;
  }
}

export const IsZone = () =>
  ValidateBy({
    name: 'isZone',
    validator: { validate: isZone, defaultMessage: () => '$property must be the name of a time zone, such as Europe/Madrid or UTC' },
  });
