import type { FieldFault } from '#libs/kernel';

export const PASSWORD_MIN = 10;
export const PASSWORD_MAX = 200;
/** Characters before two or more of which a password is taken for a joke: "aaaaaaaaaa", "abababababab". */
const FEWEST_DIFFERENT = 4;

/**
 * Length and nothing about capitals or signs (NIST SP 800-63B 5.1.1.2 advises against such rules), but not what
 * anybody would try first: few different characters, a run such as 1234567890, or the person's own address or name.
 */
export function passwordFault(password: string, own: readonly (string | null)[]): FieldFault | undefined {
  const characters = Array.from(password.normalize('NFKC'));
  if (characters.length < PASSWORD_MIN || characters.length > PASSWORD_MAX)
    return at(
      '/password',
      `A password has ${PASSWORD_MIN} to ${PASSWORD_MAX} characters. A few words do well.`,
    );
  const plain = password.trim().toLowerCase();
  if (own.some((word) => word !== null && plain === word.trim().toLowerCase()))
    return at('/password', 'This is the own name or address. Choose something that nobody knows.');
  if (new Set(characters).size < FEWEST_DIFFERENT || isRun(password))
    return at('/password', 'This is among the first that anybody would try. Choose another one.');
  return undefined;
}

/** A PIN has four to eight digits, not all alike and not counting up or down (9 and 0 are neighbours). */
export function pinFault(pin: string): FieldFault | undefined {
  if (!/^\d{4,8}$/.test(pin)) return at('/pin', 'A PIN has 4 to 8 digits.');
  if (isRunOfDigits(pin))
    return at('/pin', 'This PIN is too easy to guess: the digits are all alike or count up or down.');
  return undefined;
}

/** All alike, or counting up or down by one, 9 and 0 being neighbours. */
function isRunOfDigits(text: string): boolean {
  const digits = Array.from(text, Number);
  const [first = 0, second = 0] = digits;
  const step = (second - first + 10) % 10;
  return [0, 1, 9].includes(step) && digits.every((digit, i) => digit === (first + i * step) % 10);
}

function isRun(text: string): boolean {
  if (/^\d+$/.test(text)) return isRunOfDigits(text);
  const codes = Array.from(text.toLowerCase(), (c) => c.codePointAt(0) ?? 0);
  const step = (codes[1] ?? 0) - (codes[0] ?? 0);
  return Math.abs(step) === 1 && codes.every((code, i) => i === 0 || code - (codes[i - 1] ?? 0) === step);
}

function at(pointer: string, detail: string): FieldFault {
  return { pointer, detail };
}
