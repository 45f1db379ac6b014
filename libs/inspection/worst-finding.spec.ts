import { worstFinding } from './worst-finding.js';

describe('the finding that speaks for a line', () => {
  const worn = { id: 'worn', verdict: 'repair', mayDrive: 'yes' } as const;
  const watched = { id: 'watched', verdict: 'watch', mayDrive: 'yes' } as const;
  const limping = { id: 'limping', verdict: 'watch', mayDrive: 'to-the-shop-only' } as const;
  const unsafe = { id: 'unsafe', verdict: 'repair', mayDrive: 'no' } as const;

  it('is the one with which the car may least be driven, and then the one to repair', () => {
    expect(worstFinding([watched, worn])).toBe(worn);
    expect(worstFinding([worn, limping])).toBe(limping);
    expect(worstFinding([worn, unsafe, limping])).toBe(unsafe);
  });

  it('is the first of equals, and nothing where nothing was found', () => {
    expect(worstFinding([worn, { ...worn, id: 'other' }])).toBe(worn);
    const nothing: (typeof worn)[] = [];
    expect(worstFinding(nothing)).toBeUndefined();
  });
});
