import type { NoPlace } from '#libs/plan';
import type { NoPlaceResponse } from '../dto/offer.response.js';

/** What the plan found against it, as it is said on the phone, with what could be done about it. */
export function noPlaceWords(
  found: NoPlace,
  names: { readonly work: string; readonly tool: string },
): NoPlaceResponse {
  const { reason } = found;
  const say = (detail: string, remedy: string): NoPlaceResponse => ({ reason, detail, remedy });
  const { work } = names;
  switch (reason) {
    case 'nobody-qualified': {
      const skills = (found.skills ?? []).join(' and ');
      return skills === ''
        ? say(`Nobody here could do "${work}".`, 'Enter technicians under the floor.')
        : say(
            `Nobody here holds ${skills} for "${work}" at that time.`,
            'Ask another firm to do it, or enter the certificate if somebody has it.',
          );
    }
    case 'nobody-works':
      return say(
        `Those who could do "${work}" have no working time in the days that are planned.`,
        'Enter their shifts, or offer a later day.',
      );
    case 'no-such-bay':
      return say(`There is no bay of the kind that "${work}" needs.`, 'Another firm would have to do it.');
    case 'too-high':
      return say(
        `The vehicle is ${found.heightMm ?? 0} mm high; the highest bay for "${work}" takes ${found.highestMm ?? 0} mm.`,
        'Ask for the height again, or send it to a firm with more room.',
      );
    case 'no-lift':
      return say(`There is no lift for "${work}".`, 'Another firm would have to do it.');
    case 'weight-unknown':
      return say(
        `"${work}" is done on a lift, and nobody has told what the vehicle weighs.`,
        'Ask for the weight: it stands on the vehicle’s plate and in its papers.',
      );
    case 'lift-too-weak':
      return say(
        `The vehicle weighs ${found.weightKg ?? 0} kg; the strongest lift for "${work}" is rated for ${found.strongestKg ?? 0} kg.`,
        'Ask for the weight again. A vehicle never goes on a lift that is rated for less.',
      );
    case 'lift-not-inspected':
      return say(
        `Each lift that could carry the vehicle for "${work}" is overdue for its inspection by then.`,
        'Have the lift inspected, or offer an earlier day.',
      );
    case 'tool-missing':
      return say(
        `"${work}" needs ${names.tool}, which is not here.`,
        'Borrow or buy it, or ask another firm.',
      );
    // What may come is pinned by nobody; said of it, it would mean the same.
    case 'pinned':
    case 'no-room':
      return say(
        'There is no room for it in the days that are planned.',
        'Ask for later days, split the work, or look what would be possible if others moved.',
      );
  }
}
