import { PageQuery } from '../../../platform/http/pages.js';
import { Text, Uuid, Whole } from '../../../platform/http/fields.js';

export const CODE = {
  max: 40,
  pattern: /^[\p{L}\p{N}][\p{L}\p{N}._/-]*$/u,
  hint: 'A code has letters, digits, dots, dashes and slashes, and no spaces.',
} as const;

export class AddStepRequest {
  @Text({ ...CODE, example: 'WHEEL' }) code: string;
  @Text({ max: 120, example: 'Wheel off and on, torqued' }) name: string;
  @Whole({ min: 1, max: 100_000, unit: 'hundredths of an hour', description: '25 is a quarter of an hour.' })
  hundredths: number;
  @Uuid({ optional: true, nullable: true, description: 'A labour rate of its own; null: that of the line.' })
  rateId?: string | null;
}

export class ChangeStepRequest {
  @Text({ max: 120, optional: true }) name?: string;
  @Whole({ min: 1, max: 100_000, unit: 'hundredths of an hour', optional: true }) hundredths?: number;
  @Uuid({ optional: true, nullable: true, description: 'Null: that of the line.' }) rateId?: string | null;
}

export class CatalogueQuery extends PageQuery {
  @Text({ optional: true, max: 100, description: 'Part of the code or the name.' }) q?: string;
}
