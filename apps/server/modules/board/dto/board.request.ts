import { Day } from '../../../platform/http/fields.js';

export class BoardQuery {
  @Day({ optional: true, description: 'A day of the shop; today unless given.' }) day?: string;
}
