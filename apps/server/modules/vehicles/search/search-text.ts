import { nationalDigits } from '../intake/phone.js';
import { fold, joined } from './fold.js';

/** Words each followed by a space, with a space in front: the beginning of a word is then found as " wo". */
function assemble(words: readonly string[]): string {
  const unique = [...new Set(words.flatMap((word) => word.split(' ')).filter((word) => word !== ''))];
  return unique.length === 0 ? ' ' : ` ${unique.join(' ')} `;
}

const digits = (text: string): string => text.replace(/\D/g, '');

/** A telephone number is found by any run of its digits: international, as dialled at home, and as typed. */
export function customerSearchText(customer: {
  readonly displayName: string;
  readonly phone: string | null;
  readonly phoneE164: string | null;
  readonly email: string | null;
}): string {
  const numbers = [
    digits(customer.phoneE164 ?? ''),
    nationalDigits(customer.phoneE164 ?? ''),
    digits(customer.phone ?? ''),
  ];
  const told = numbers.filter(
    (number, i) => !numbers.slice(0, i).some((earlier) => earlier.includes(number)),
  );
  return assemble([fold(customer.displayName), ...told, fold(customer.email ?? '')]);
}

/** Plate and VIN without their gaps, then make, model, year, colour, and the owner: "tarle merelin" finds the car. */
export function vehicleSearchText(
  vehicle: {
    readonly plate: string | null;
    readonly vin: string | null;
    readonly make: string;
    readonly model: string;
    readonly modelYear: number | null;
    readonly colour: string | null;
  },
  ownerName: string,
): string {
  return assemble([
    joined(vehicle.plate ?? ''),
    fold(vehicle.make),
    fold(vehicle.model),
    String(vehicle.modelYear ?? ''),
    fold(vehicle.colour ?? ''),
    joined(vehicle.vin ?? ''),
    fold(ownerName),
  ]);
}
