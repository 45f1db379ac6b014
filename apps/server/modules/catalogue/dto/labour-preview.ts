import { POSITIONS, type Position } from '#libs/estimate';
import { ListOf, Text, TextList, Uuid, Whole } from '../../../platform/http/fields.js';

export class PreviewedOperation {
  @Uuid() operationId: string;
  @TextList({ values: POSITIONS, max: 12, description: 'Where on the vehicle it is done.' })
  positions: Position[];
}

export class LabourPreviewRequest {
  @ListOf(() => PreviewedOperation, { max: 60 }) operations: PreviewedOperation[];
}

export class PreviewedLabour {
  @Uuid() operationId: string;
  @Text() code: string;
  @Text() name: string;
  @TextList() positions: string[];
  @Whole({ description: 'Hundredths of an hour if it were the only one.' }) aloneHundredths: number;
  @Whole({ description: 'Its part of the hours together.' }) shareHundredths: number;
}

export class LabourPreviewResponse {
  @ListOf(() => PreviewedLabour) operations: PreviewedLabour[];
  @Whole({ description: 'Hundredths of an hour for all of them in one visit: a shared step counts once.' })
  togetherHundredths: number;
}
