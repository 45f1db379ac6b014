import { Text, Whole } from '../../../platform/http/fields.js';

export class AddSpecialToolRequest {
  @Text({ max: 80, example: 'Ball joint press' }) name: string;
  @Whole({ min: 1, max: 50, description: 'How many of them the shop has.' }) units: number;
}

export class ChangeSpecialToolRequest {
  @Text({ max: 80, optional: true }) name?: string;
  @Whole({ min: 1, max: 50, optional: true }) units?: number;
}
