import { nextPage } from './next-page.js';

describe('where a sign-in leads', () => {
  it('goes back to the page that asked for it', () => {
    expect(nextPage('/estimate?repairOrder=1')).toBe('/estimate?repairOrder=1');
    expect(nextPage('/plan')).toBe('/plan');
    expect(nextPage('/when')).toBe('/when');
    expect(nextPage('/calendar')).toBe('/calendar');
    expect(nextPage('/what-if')).toBe('/what-if');
    expect(nextPage('/board?day=2031-03-12')).toBe('/board?day=2031-03-12');
  });

  it.each([
    null,
    '',
    'https://elsewhere.example',
    '//elsewhere.example',
    '/\\elsewhere.example',
    '/boarding',
    '/api/v1/live',
  ])('goes to the board instead of %s', (next) => expect(nextPage(next)).toBe('/board'));
});
