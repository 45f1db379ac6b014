import { registerDecorator } from 'class-validator';
import { DateTime } from 'luxon';

const RFC3339 =
  /^[12]\d{3}-\d{2}-\d{2}T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(\.\d{1,9})?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/;

/** RFC 3339 with an offset and a day that exists; a leap second is refused rather than shifted. */
export function isInstant(value: unknown): value is string {
  return typeof value === 'string' && RFC3339.test(value) && DateTime.fromISO(value).isValid;
}

export function IsInstant(): PropertyDecorator {
  return (target, propertyName) => {
    registerDecorator({
      name: 'isInstant',
      target: target.constructor,
      propertyName: String(propertyName),
      options: { message: 'Give a time with its offset, such as 2026-03-14T08:30:00+01:00.' },
      validator: { validate: isInstant },
    });
  };
}
