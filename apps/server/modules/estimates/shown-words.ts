import type { MayDrive } from '#libs/inspection';

/**
 * What an owner reads and the server writes, frozen with the revision. In one place, so that a translation can come.
 */
export const SHOWN_LANGUAGE = 'en';

export const MAY_DRIVE_WORDS: Readonly<Record<MayDrive, string>> = {
  yes: 'The car may be driven with it.',
  'to-the-shop-only': 'The car may be driven to the shop only.',
  no: 'The car must not be driven with it.',
};

/** Why a line is there that answers no finding and has no words of its own. */
export const ASKED_FOR = 'You asked for this.';

const CONDITION: Readonly<Record<string, string>> = { new: 'new', used: 'used', rebuilt: 'rebuilt' };
const SOURCE: Readonly<Record<string, string>> = {
  'donor-vehicle': 'from a donor vehicle',
  'customer-supplied': 'supplied by you',
};

/** "used, from a donor vehicle"; null for what has no condition, such as a fluid. */
export function conditionWords(condition: string | null, source: string | null): string | null {
  const words = [CONDITION[condition ?? ''], SOURCE[source ?? '']].filter((word) => word !== undefined);
  return words.length === 0 ? null : words.join(', ');
}

export const readingWords = (reading: { name: string; value: string; unit: string }): string =>
  `${reading.name} ${reading.value} ${reading.unit}`;

/** What moves all hours of a car together, as the causes of a range name it. */
export const COMMON_WORDS = 'Corrosion and age: how easily everything comes apart';

export const AUTHORISATION_NOTICE =
  'Nothing is charged that the owner did not agree to. Which estimate, form and tolerance are due is decided by local law; this is not legal advice.';
