const words: Readonly<Record<string, string>> = {
  'front-desk': 'Front desk',
  technician: 'Technician',
  manager: 'Manager',
  administrator: 'Administrator',
};

export const roleWords = (roles: readonly string[]): string => roles.map((role) => words[role] ?? role).join(', ');
