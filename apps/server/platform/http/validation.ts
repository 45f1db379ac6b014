import { ValidationPipe, type ValidationError } from '@nestjs/common';
import type { FieldFault } from '#libs/kernel';
import { problem } from './problem-error.js';

const escaped = (part: string): string => part.replaceAll('~', '~0').replaceAll('/', '~1');

function flatten(errors: readonly ValidationError[], above: string): FieldFault[] {
  return errors.flatMap((error) => {
    const pointer = `${above}/${escaped(error.property)}`;
    const own = Object.entries(error.constraints ?? {}).map(([rule, message]) => ({
      pointer,
      detail: rule === 'whitelistValidation' ? 'This field is not known here. Leave it out.' : message,
    }));
    // One sentence a field is enough: the first rule that failed.
    return [...own.slice(0, 1), ...flatten(error.children ?? [], pointer)];
  });
}

/** Shape only; what a value means is for the libs. Unknown fields are refused, so that a misspelt one is not lost. */
export function validation(): ValidationPipe {
  return new ValidationPipe({
    whitelist: true,
    forbidNonWhitelisted: true,
    transform: true,
    forbidUnknownValues: true,
    exceptionFactory: (errors) => {
      const fields = flatten(errors, '');
      const names = fields.map((f) => f.pointer).join(', ');
      return problem('request-invalid', `Look at ${names || 'the request'}.`, { fields });
    },
  });
}
