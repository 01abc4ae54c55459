import { applyDecorators } from '@nestjs/common';
import { Transform } from 'class-transformer';
import { ValidateBy, ValidateIf } from 'class-validator';

/** A name or another line of text: not blank, and without spaces around it once it is read. */
export const IsName = (most = 120) =>
  applyDecorators(
    Transform(({ value }) => (typeof value === 'string' ? value.trim() : value)),
    ValidateBy({
      name: 'isName',
      validator: {
        validate: (value) => typeof value === 'string' && value.length >= 1 && value.length <= most && !value.includes('\0'),
        defaultMessage: () => `$property must be text of 1 to ${most} characters`,
      },
    }),
  );

/** Text that may be empty and may have lines. */
export const IsText = (most = 2000) =>
  ValidateBy({
    name: 'isText',
    validator: {
      validate: (value) => typeof value === 'string' && value.length <= most && !value.includes('\0'),
      defaultMessage: () => `$property must be text of at most ${most} characters, without U+0000`,
    },
  });

/** For a field that may be missing but, unlike with IsOptional, not null. */
export const MayBeLeftOut = () => ValidateIf((_, value) => value !== undefined);
