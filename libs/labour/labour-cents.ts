import { type BookHundredths, type Cents } from '#libs/kernel';
import { extend } from '#libs/money';

/** The price of book hours at a rate in cents per hour, half up on the exact product. */
export function labourCents(hundredths: BookHundredths, rateCentsPerHour: Cents): Cents {
  return extend(hundredths, rateCentsPerHour);
}
