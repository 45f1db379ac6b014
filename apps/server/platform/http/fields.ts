import { applyDecorators } from '@nestjs/common';
import { ApiProperty, type ApiPropertyOptions } from '@nestjs/swagger';
import { Transform, Type } from 'class-transformer';
import {
  ArrayMaxSize,
  IsArray,
  IsBoolean,
  IsEmail,
  IsIn,
  IsInt,
  IsOptional,
  IsUUID,
  Length,
  Matches,
  Max,
  Min,
  ValidateIf,
  ValidateNested,
  type ValidationOptions,
} from 'class-validator';
import { AreObjects, HasNoNul, IsDay, IsOneObject } from './field-checks.js';
import { IsInstant } from './is-instant.js';

/**
 * One decorator a field: it checks the shape of what comes in, describes it in the OpenAPI document and gives the
 * sentence that a person reads when it is wrong. The same decorators describe answers.
 */
export interface FieldOptions {
  /** May be left out. */
  readonly optional?: boolean;
  /** May be null. */
  readonly nullable?: boolean;
  readonly description?: string;
  readonly example?: unknown;
}

type Decorator = PropertyDecorator;

function field(options: FieldOptions, api: ApiPropertyOptions, checks: Decorator[]): Decorator {
  const parts: Decorator[] = [
    ApiProperty({
      ...api,
      required: options.optional !== true,
      ...(options.nullable ? { nullable: true } : {}),
      ...(options.description ? { description: options.description } : {}),
      ...(options.example === undefined ? {} : { example: options.example }),
    } as ApiPropertyOptions),
  ];
  if (options.optional && options.nullable) parts.push(IsOptional());
  else if (options.optional) parts.push(ValidateIf((_o, value) => value !== undefined));
  else if (options.nullable) parts.push(ValidateIf((_o, value) => value !== null));
  return applyDecorators(...parts, ...checks);
}

const says = (message: string, each = false): ValidationOptions => ({ message, each });
const trimmed = Transform(({ value }: { value: unknown }) =>
  typeof value === 'string' ? value.trim() : value,
);

export function Text(
  o: FieldOptions & { min?: number; max?: number; pattern?: RegExp; hint?: string } = {},
): Decorator {
  const min = o.min ?? 1;
  const max = o.max ?? 200;
  const checks: Decorator[] = [
    trimmed,
    Length(min, max, says(`Give a text of ${min} to ${max} characters.`)),
    HasNoNul(),
  ];
  if (o.pattern) checks.push(Matches(o.pattern, says(o.hint ?? 'This text is not in the expected form.')));
  return field(
    o,
    { type: String, minLength: min, maxLength: max, ...(o.pattern ? { pattern: o.pattern.source } : {}) },
    checks,
  );
}

export function Email(o: FieldOptions = {}): Decorator {
  return field(o, { type: String, format: 'email' }, [
    trimmed,
    IsEmail({}, says('Give an e-mail address such as name@example.com.')),
  ]);
}

export function Uuid(o: FieldOptions = {}): Decorator {
  return field(o, { type: String, format: 'uuid' }, [
    IsUUID(undefined, says('Give the id of a record (a UUID).')),
  ]);
}

export function Whole(o: FieldOptions & { min?: number; max?: number; unit?: string } = {}): Decorator {
  const min = o.min ?? 0;
  const max = o.max ?? 2_000_000_000;
  const message = `Give a whole number from ${min} to ${max}${o.unit ? `, in ${o.unit}` : ''}.`;
  return field(o, { type: 'integer', minimum: min, maximum: max }, [
    IsInt(says(message)),
    Min(min, says(message)),
    Max(max, says(message)),
  ]);
}

/** Money in whole cents; the database keeps four bytes, so up to 20 million of the currency. */
export function CentsField(o: FieldOptions & { min?: number } = {}): Decorator {
  return Whole({ max: 2_000_000_000, unit: 'cents', ...o });
}

export function Flag(o: FieldOptions = {}): Decorator {
  return field(o, { type: Boolean }, [IsBoolean(says('Say true or false.'))]);
}

export function OneOf(values: readonly string[], o: FieldOptions = {}): Decorator {
  return field(o, { type: String, enum: [...values] }, [
    IsIn([...values], says(`Choose one of: ${values.join(', ')}.`)),
  ]);
}

/** A point in time, RFC 3339 with an offset. */
export function Instant(o: FieldOptions = {}): Decorator {
  return field(o, { type: String, format: 'date-time' }, [IsInstant()]);
}

/** A calendar day of the shop, YYYY-MM-DD. */
export function Day(o: FieldOptions = {}): Decorator {
  return field(o, { type: String, format: 'date' }, [IsDay()]);
}

/** An exact decimal as text, such as "2.0": a measurement keeps the digits that were read. */
export function DecimalText(o: FieldOptions = {}): Decorator {
  return field(o, { type: String, pattern: '^-?\\d{1,8}(\\.\\d{1,4})?$' }, [
    Matches(/^-?\d{1,8}(\.\d{1,4})?$/, says('Give a number as text with up to 4 decimals, such as "2.0".')),
  ]);
}

export function TextList(
  o: FieldOptions & { max?: number; values?: readonly string[]; maxLength?: number } = {},
): Decorator {
  const max = o.max ?? 50;
  const items = o.values
    ? [IsIn([...o.values], says(`Choose from: ${o.values.join(', ')}.`, true))]
    : [Length(1, o.maxLength ?? 100, says(`Each text has 1 to ${o.maxLength ?? 100} characters.`, true))];
  return field(o, { type: String, isArray: true, ...(o.values ? { enum: [...o.values] } : {}) }, [
    IsArray(says('Give a list.')),
    ArrayMaxSize(max, says(`At most ${max} entries.`)),
    HasNoNul(),
    ...items,
  ]);
}

export function UuidList(o: FieldOptions & { max?: number } = {}): Decorator {
  const max = o.max ?? 200;
  return field(o, { type: String, format: 'uuid', isArray: true }, [
    IsArray(says('Give a list of ids.')),
    ArrayMaxSize(max, says(`At most ${max} entries.`)),
    IsUUID(undefined, says('Each entry is the id of a record (a UUID).', true)),
  ]);
}

type Class = abstract new (...args: never[]) => object;

// Swagger takes a function for a lazy type only if its name is "type", which it gets by standing in that property.
export function Nested(type: () => Class, o: FieldOptions = {}): Decorator {
  return field(o, { type: (() => type()) as never, ...(o.nullable ? { nullable: true } : {}) }, [
    IsOneObject(),
    ValidateNested(says('Give an object here.')),
    Type(type),
  ]);
}

export function ListOf(type: () => Class, o: FieldOptions & { max?: number } = {}): Decorator {
  const max = o.max ?? 200;
  return field(o, { type: (() => type()) as never, isArray: true }, [
    IsArray(says('Give a list.')),
    ArrayMaxSize(max, says(`At most ${max} entries.`)),
    AreObjects(),
    ValidateNested({ each: true, message: 'Each entry is an object.' }),
    Type(type),
  ]);
}

/** A free-form object in an answer (breakdowns, facts). Never for input. */
export function AnyObject(o: FieldOptions = {}): Decorator {
  return field(o, { type: 'object', additionalProperties: true }, []);
}

/** Query parameters are text; this one is a number. */
export function QueryWhole(o: FieldOptions & { min?: number; max?: number } = {}): Decorator {
  return applyDecorators(
    Transform(({ value }: { value: unknown }) =>
      typeof value === 'string' && value !== '' ? Number(value) : value,
    ),
    Whole(o),
  );
}
