import { linkState } from './link-state.js';

const at = (time: string): Date => new Date(`2031-05-06T${time}Z`);

describe('an approval link', () => {
  it('opens until the instant of its expiry and not at it', () => {
    const link = { expiresAt: at('12:00:00.000'), revokedAt: null };
    expect(linkState({ ...link, now: at('11:59:59.999') })).toBe('open');
    expect(linkState({ ...link, now: at('12:00:00.000') })).toBe('expired');
    expect(linkState({ ...link, now: at('12:00:00.001') })).toBe('expired');
  });

  it('says that it was taken back, before its expiry and after', () => {
    const link = { expiresAt: at('12:00:00'), revokedAt: at('09:00:00') };
    expect(linkState({ ...link, now: at('10:00:00') })).toBe('revoked');
    expect(linkState({ ...link, now: at('13:00:00') })).toBe('revoked');
  });
});
