import { CentsField, ListOf, Text, Whole } from '../../../platform/http/fields.js';

const OLDEST = 200;

export class BaseRateBody {
  @Text({
    max: 120,
    description: 'As the checkpoints of the templates call it; large and small letters alike.',
  })
  component: string;
  @Whole({
    max: OLDEST,
    optional: true,
    nullable: true,
    unit: 'years',
    description: 'Age of the vehicle from which it holds; unless given, from new.',
  })
  fromYears?: number | null;
  @Whole({
    max: OLDEST,
    optional: true,
    nullable: true,
    unit: 'years',
    description: 'And up to which, this year included; unless given, without end.',
  })
  toYears?: number | null;
  @Whole({
    max: 1_000_000,
    unit: 'millionths',
    description: 'How often it turns out to need work where it could not be seen.',
  })
  chancePpm: number;
  @CentsField({ description: 'What that comes to at least, tax included.' }) lowCents: number;
  @CentsField({ description: 'And most often.' }) likelyCents: number;
  @CentsField({ description: 'And at most.' }) highCents: number;
}

export class BaseRatesRequest {
  @ListOf(() => BaseRateBody, { max: 500, description: 'All of them; what is not in the list goes.' })
  items: BaseRateBody[];
}

export class BaseRatesResponse {
  @ListOf(() => BaseRateBody, { max: 500 }) items: BaseRateBody[];
  @Whole({ min: 1, description: 'Of the shop and its settings.' }) version: number;
}
