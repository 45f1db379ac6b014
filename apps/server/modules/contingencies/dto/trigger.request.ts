import { ListOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class UsedItemRequest {
  @Uuid({ description: 'Of an item of the contingency.' }) itemId: string;
  @Whole({
    max: 10_000_000,
    unit: 'hundredths of its unit',
    description: 'What was really used; 0 for none.',
  })
  quantityHundredths: number;
}

export class TriggerContingencyRequest {
  @Text({ min: 3, max: 1000, description: 'What happened and how it was seen; the owner reads it.' })
  reason: string;
  @Uuid({ description: 'A photo that was put to this contingency.' }) photoId: string;
  @Whole({
    max: 100_000,
    optional: true,
    unit: 'hundredths of an hour',
    description:
      'Extra book hours where they are not those offered. More than were offered takes the front desk or a manager.',
  })
  hundredths?: number;
  @ListOf(() => UsedItemRequest, {
    optional: true,
    max: 20,
    description: 'Items of which another quantity was used; one that is left out was used as offered.',
  })
  items?: UsedItemRequest[];
}
