/**
 * Where on a vehicle a step is done: a closed list, from the outside of the hierarchy inwards.
 *
 * - `vehicle` holds everything;
 * - `front` and `rear` are the axles, `left` and `right` the sides; each axle and each side holds two corners;
 * - the four corners each belong to one axle and one side;
 * - `engine`, `underbody` and `interior` are places of their own, without corner or axle.
 */
export const POSITIONS = [
  'vehicle',
  'front',
  'rear',
  'left',
  'right',
  'front-left',
  'front-right',
  'rear-left',
  'rear-right',
  'engine',
  'underbody',
  'interior',
] as const;
export type Position = (typeof POSITIONS)[number];

const CORNERS = ['front-left', 'front-right', 'rear-left', 'rear-right'] as const;
const AXLES = ['front', 'rear'] as const;

export function isPosition(text: string): text is Position {
  return (POSITIONS as readonly string[]).includes(text);
}

/** The corners that a position covers: none for a place that has no corner. */
export function cornersOf(position: Position): Position[] {
  if (position === 'vehicle') return [...CORNERS];
  return CORNERS.filter(
    (corner) => corner === position || corner.startsWith(`${position}-`) || corner.endsWith(`-${position}`),
  );
}

/** The axles that a position touches: none for a place that has no axle. */
export function axlesOf(position: Position): Position[] {
  const corners = cornersOf(position);
  return AXLES.filter((axle) => corners.some((corner) => corner.startsWith(`${axle}-`)));
}
