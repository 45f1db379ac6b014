import { isProblemCode, PROBLEMS } from '../../platform/http/problem-codes.js';
import { problem } from '../../platform/http/problem-error.js';

/** The meaning of a code for whoever follows the `type` of a problem. */
export function problemInWords(code: string): string {
  if (!isProblemCode(code)) throw problem('not-found', 'There is no problem of this name.');
  return `${code}\n${PROBLEMS[code].title} (status ${PROBLEMS[code].status}).\n`;
}
