const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** `Front desk, Manager`, from the roles' stable names. */
export const roleWords = (roles: readonly string[]): string =>
  roles.map((role) => capital(role.replace('-', ' '))).join(', ');
