/** The demonstration shop's key is fixed, so that every part of the program knows the shop without looking for it. */
export const DEMO_SHOP_ID = '0190d3a0-0000-7000-8000-00000000de30';

/** The invented people of the demonstration shop. Their passwords are public: the shop is never made in production. */
export const DEMO_ACCOUNTS = [
  {
    name: 'Wenna Tarle',
    role: 'front desk',
    email: 'wenna@kestrelyard.example',
    password: 'front-desk-demo',
  },
  { name: 'Bram Tollan', role: 'technician', email: 'bram@kestrelyard.example', password: 'technician-demo' },
  {
    name: 'Saffi Renqvist',
    role: 'technician',
    email: 'saffi@kestrelyard.example',
    password: 'technician-demo',
  },
  { name: 'Orla Venn', role: 'manager', email: 'orla@kestrelyard.example', password: 'manager-demo' },
  {
    name: 'Tomas Quell',
    role: 'administrator',
    email: 'tomas@kestrelyard.example',
    password: 'administrator-demo',
  },
] as const;
