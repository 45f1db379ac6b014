import { applyDecorators } from '@nestjs/common';
import { ApiProperty } from '@nestjs/swagger';
import { IsString, Length, Matches, ValidateIf } from 'class-validator';

interface SecretOptions {
  readonly min: number;
  readonly max: number;
  readonly optional?: boolean;
  readonly nullable?: boolean;
  readonly pattern?: RegExp;
  readonly hint?: string;
  readonly description?: string;
}

/** A password or PIN: taken letter by letter, spaces at the ends included, where other texts are trimmed. */
export function Secret(o: SecretOptions): PropertyDecorator {
  const message = o.hint ?? `Give ${o.min} to ${o.max} characters.`;
  return applyDecorators(
    ApiProperty({
      type: String,
      format: 'password',
      minLength: o.min,
      maxLength: o.max,
      required: o.optional !== true,
      ...(o.nullable ? { nullable: true } : {}),
      ...(o.pattern ? { pattern: o.pattern.source } : {}),
      ...(o.description ? { description: o.description } : {}),
    }),
    ValidateIf(
      (_o, value) =>
        !(o.optional === true && value === undefined) && !(o.nullable === true && value === null),
    ),
    IsString({ message }),
    Length(o.min, o.max, { message }),
    ...(o.pattern ? [Matches(o.pattern, { message })] : []),
  );
}
