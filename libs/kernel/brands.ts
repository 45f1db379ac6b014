declare const brand: unique symbol;
export type Brand<T, B extends string> = T & { readonly [brand]: B };

/** Money: whole cents of the shop's currency. */
export type Cents = Brand<number, 'Cents'>;
/** Book time: whole hundredths of an hour; one is exactly 36 s. */
export type BookHundredths = Brand<number, 'BookHundredths'>;
/** Clocked time: whole seconds. */
export type Seconds = Brand<number, 'Seconds'>;
/** A rate as whole millionths: 6.5 % is 65 000. */
export type Ppm = Brand<number, 'Ppm'>;

/** The integer guard behind every brand. A fraction here is a bug of ours, so it throws. */
function whole(value: number, what: string): number {
  if (!Number.isSafeInteger(value)) throw new RangeError(`${what} must be a whole number, got ${value}`);
  return value === 0 ? 0 : value;
}

export const cents = (value: number): Cents => whole(value, 'cents') as Cents;
export const bookHundredths = (value: number): BookHundredths =>
  whole(value, 'book hundredths') as BookHundredths;
export const seconds = (value: number): Seconds => whole(value, 'seconds') as Seconds;
export const ppm = (value: number): Ppm => whole(value, 'ppm') as Ppm;

/** Book time in the unit of clocked time; exact, because 0.01 h is 36 s. */
export const bookToSeconds = (hundredths: BookHundredths): Seconds => seconds(hundredths * 36);
