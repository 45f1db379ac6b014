import { Day } from '../../../platform/http/fields.js';

export class ReviewQuery {
  @Day({ description: 'The first day, by the shop’s clock.' }) from: string;
  @Day({ description: 'The last day, it included.' }) to: string;
}
