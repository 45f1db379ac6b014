import { parsePhoneNumberFromString, type CountryCode } from 'libphonenumber-js';

/**
 * The international form (E.164) of a number as typed, or null where it cannot be one; what was typed is kept beside
 * it. A number without a country is read as one of the shop's country, which the shop's own number tells.
 */
export function internationalPhone(typed: string | null, shopPhone: string | null): string | null {
  if (typed === null) return null;
  const number = parsePhoneNumberFromString(typed, countryOf(shopPhone));
  return number?.isValid() === true ? number.number : null;
}

function countryOf(shopPhone: string | null): CountryCode | undefined {
  return shopPhone === null ? undefined : parsePhoneNumberFromString(shopPhone)?.country;
}

/** The digits as dialled inside the country: elsewhere than in North America they are no part of the international form. */
export function nationalDigits(international: string): string {
  return parsePhoneNumberFromString(international)?.formatNational().replace(/\D/g, '') ?? '';
}
