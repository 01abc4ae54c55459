import { ValidateBy } from 'class-validator';
import { millionthsOf } from '../core/quantity.js';

interface Range {
  readonly aboveZero?: boolean;
  readonly decimals: number;
  readonly most?: number;
}

/** A decimal number as text, so that no digit is lost on the way. */
export const IsDecimal = ({ aboveZero = false, decimals, most = 999_999_999 }: Range) =>
  ValidateBy({
    name: 'isDecimal',
    validator: {
      validate: (value) => {
        const size = typeof value === 'string' ? millionthsOf(value) : null;
        return size !== null && size >= (aboveZero ? 1n : 0n) && size <= BigInt(most) * 1_000_000n && (String(value).split('.')[1]?.length ?? 0) <= decimals;
      },
      defaultMessage: () =>
        `$property must be a number ${aboveZero ? 'above 0' : 'from 0 on'} as text, at most ${most}, with ${decimals} decimals at most, such as "12.5"`,
    },
  });

export const IsMoney = () => IsDecimal({ decimals: 4 });
export const IsQuantity = () => IsDecimal({ decimals: 6, aboveZero: true });
