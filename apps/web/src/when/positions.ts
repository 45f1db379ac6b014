/** Where on a vehicle, as `POSITIONS` of libs/estimate has them; a spec holds the two together. */
const WORDS: readonly (readonly [string, string])[] = [
  ['front', 'Front axle'],
  ['rear', 'Rear axle'],
  ['left', 'Left side'],
  ['right', 'Right side'],
  ['front-left', 'Front left'],
  ['front-right', 'Front right'],
  ['rear-left', 'Rear left'],
  ['rear-right', 'Rear right'],
  ['engine', 'Engine'],
  ['underbody', 'Underbody'],
  ['interior', 'Interior'],
];

export const positionOptions: readonly (readonly [string, string])[] = [['', 'The whole vehicle'], ...WORDS];
