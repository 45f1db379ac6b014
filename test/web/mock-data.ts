/** The invented shop of the pages' tests: a Wednesday, 10:42, in a zone that knows summer time. */
export const ZONE = 'Europe/Vienna';
export const DAY = '2031-03-12';
export const NOW = '2031-03-12T09:42:00Z';
export const PASSWORD = 'demo-password';
export const PIN = '4711';

export const id = (kind: number, n: number): string =>
  `00000000-0000-4000-8${kind}00-${String(n).padStart(12, '0')}`;

export interface MockAccount {
  readonly id: string;
  readonly displayName: string;
  readonly role: string;
  readonly email: string;
}
const account = (n: number, displayName: string, role: string): MockAccount => ({
  id: id(1, n),
  displayName,
  role,
  email: `${(displayName.split(' ')[0] ?? '').toLowerCase()}@tamarind.example`,
});
export const accounts: readonly MockAccount[] = [
  account(1, 'Nell Farrow', 'front-desk'),
  account(2, 'Ines Okorie', 'manager'),
  account(11, 'Bram Tollan', 'technician'),
  account(12, 'Saffi Renqvist', 'technician'),
  account(13, 'Dov Marrec', 'technician'),
  account(14, 'Yuna Achter', 'technician'),
  account(15, 'Pellegrina Orrin-Vandermeulen of Upper Tamarind', 'technician'),
];
export const shop = { id: id(0, 1), name: 'Tamarind Street Garage', timeZone: ZONE, currency: 'EUR' };

/** A time of the test day on the shop's wall (winter time there: UTC + 1). */
export const at = (time: string): string => new Date(Date.parse(`${DAY}T${time}:00+01:00`)).toISOString();

export const workOrderId = (n: number): string => id(3, n);
export const bayId = (n: number): string => id(2, n);
export const staffId = (n: number): string => id(1, n);
