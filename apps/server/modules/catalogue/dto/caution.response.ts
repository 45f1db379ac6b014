import { ListOf, Text } from '../../../platform/http/fields.js';

export class CautionResponse {
  @Text() id: string;
  @Text({ max: 400 }) text: string;
  @Text() source: string;
  @Text({ description: 'read, memory or own: how sure the source is.' }) basis: string;
}

export class CautionsResponse {
  @Text({ max: 400, description: 'Stands beside every list of cautions.' }) defersTo: string;
  @ListOf(() => CautionResponse) items: CautionResponse[];
}
