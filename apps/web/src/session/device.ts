/**
 * What makes this browser a bay tablet, in localStorage until somebody forgets the tablet:
 *   bayledger.device-token   the token from `POST /api/v1/devices`, sent as `X-Device-Token`
 *   bayledger.device-name    the name that the manager gave, for display
 *   bayledger.device-shop    the shop's name, for display before anybody signs in
 * The token alone opens nothing: it lists the people of the shop and lets them sign in with their PIN.
 */
const TOKEN = 'bayledger.device-token';
const NAME = 'bayledger.device-name';
const SHOP = 'bayledger.device-shop';

export interface Device {
  readonly token: string;
  readonly name: string;
  readonly shopName: string;
}

export function enrolledDevice(): Device | null {
  const token = localStorage.getItem(TOKEN);
  if (token === null) return null;
  return {
    token,
    name: localStorage.getItem(NAME) ?? 'Bay tablet',
    shopName: localStorage.getItem(SHOP) ?? '',
  };
}

export function keepDevice(device: Device): void {
  localStorage.setItem(TOKEN, device.token);
  localStorage.setItem(NAME, device.name);
  localStorage.setItem(SHOP, device.shopName);
}

export function forgetDevice(): void {
  for (const key of [TOKEN, NAME, SHOP]) localStorage.removeItem(key);
}

export const deviceHeader = (device: Device): Record<string, string> => ({ 'X-Device-Token': device.token });
