import type { NoPlace, PlanPin } from '#libs/plan';

/** Why there is no place for work at all, in a sentence with its remedy. */
export function noPlaceWords(
  why: NoPlace,
  names: ReadonlyMap<string, string>,
  said: (minute: number) => string,
): string {
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
    case 'pinned':
      return pinnedWords(why, names, said);
    case 'no-room':
      return 'There is no room for it in the days that are planned.';
  }
}

function pinnedWords(
  { pin = {}, by = null }: NoPlace,
  names: ReadonlyMap<string, string>,
  said: (minute: number) => string,
): string {
  const there = by === null ? '' : ` ${names.get(by) ?? 'Other work'} is there at that time.`;
  const people = (pin.technicians ?? []).map((id) => names.get(id) ?? 'somebody').join(' and ');
  return isPersonOnly(pin)
    ? `Only ${people} is to do it, and there is no place for that.${there} Have it given back, or take the pin off.`
    : `It is pinned to ${[
        ...(pin.start == null ? [] : [said(pin.start)]),
        ...(pin.bay == null ? [] : [names.get(pin.bay) ?? 'a bay']),
        ...(people === '' ? [] : [people]),
      ].join(', ')}, and has no place there.${there} Take the pin off, or lay it down elsewhere.`;
}

/** Also of work that somebody holds without anybody having pinned it. */
const isPersonOnly = ({ start, bay }: PlanPin): boolean => start == null && bay == null;
