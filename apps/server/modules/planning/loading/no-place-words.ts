import type { NoPlace } from '#libs/plan';

/** Why there is no place for work at all, in a sentence with its remedy. */
export function noPlaceWords(why: NoPlace, names: ReadonlyMap<string, string>): string {
  const skills = (why.skills ?? []).join(' and ');
  switch (why.reason) {
    case 'nobody-qualified':
      return skills === ''
        ? 'There is nobody who could do it.'
        : `Nobody here holds ${skills} with a certificate that lasts. Enter it, or have somebody certified.`;
    case 'nobody-works':
      return 'Nobody who could do it has working times. Enter shifts.';
    case 'no-such-bay':
      return 'There is no bay of the kind that it needs.';
    case 'too-high':
      return `The vehicle is ${why.heightMm ?? 0} mm high; the highest bay takes ${why.highestMm ?? 0} mm.`;
    case 'no-lift':
      return 'It needs a lift, and there is none that suits.';
    case 'weight-unknown':
      return 'The weight of the vehicle is not recorded. Read it from its plate before it goes on a lift.';
    case 'lift-too-weak':
      return `The vehicle weighs ${why.weightKg ?? 0} kg; the strongest lift is rated for ${why.strongestKg ?? 0} kg.`;
    case 'lift-not-inspected':
      return 'No lift that could carry it has an inspection that is still good. Have it inspected and enter the day.';
    case 'tool-missing':
      return `It needs "${names.get(why.toolKind ?? '') ?? 'a special tool'}", and there is none here.`;
    case 'no-room':
      return 'There is no room for it in the days that are planned.';
  }
}
