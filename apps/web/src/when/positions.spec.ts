import { POSITIONS } from '#libs/estimate';
import { positionOptions } from './positions.js';

it('offers every position that the catalogue knows; the whole vehicle is what is meant when none is said', () => {
  expect(positionOptions.map(([position]) => (position === '' ? 'vehicle' : position))).toEqual([
    ...POSITIONS,
  ]);
});
