import { registerDecorator } from 'class-validator';
import { DateTime } from 'luxon';

function check(name: string, message: string, validate: (value: unknown) => boolean): PropertyDecorator {
  return (target, propertyName) => {
    registerDecorator({
      name,
      target: target.constructor,
      propertyName: String(propertyName),
      options: { message },
      validator: { validate },
    });
  };
}

/** YYYY-MM-DD and a day that exists: the database would refuse 31 February later and less kindly. */
export const IsDay = (): PropertyDecorator =>
  check(
    'isDay',
    'Give a day that exists, such as 2026-03-14.',
    (value) =>
      typeof value === 'string' && /^[12]\d{3}-\d{2}-\d{2}$/.test(value) && DateTime.fromISO(value).isValid,
  );

/** Postgres keeps no NUL character in a text. */
export const HasNoNul = (): PropertyDecorator =>
  check('hasNoNul', 'Take the NUL character out of this text.', (value) =>
    [value].flat().every((text) => typeof text !== 'string' || !text.includes('\0')),
  );

/** A list inside the list would pass nested validation without any of its fields being looked at. */
export const AreObjects = (): PropertyDecorator =>
  check(
    'areObjects',
    'Each entry is an object.',
    (value) =>
      !Array.isArray(value) ||
      value.every((entry) => typeof entry === 'object' && entry !== null && !Array.isArray(entry)),
  );

/** The same for one object. */
export const IsOneObject = (): PropertyDecorator =>
  check('isOneObject', 'Give an object here.', (value) => typeof value === 'object' && !Array.isArray(value));
