import { Flag, ListOf, Text, TextList, Uuid, Whole } from '../../../platform/http/fields.js';

export class OperationStepResponse {
  @Uuid() stepId: string;
  @Text() code: string;
  @Text() name: string;
  @Text({ description: 'chosen, corner, axle or vehicle.' }) at: string;
  @Whole({ min: 1, description: 'Hundredths of an hour at one place.' }) hundredths: number;
}

export class OperationToolResponse {
  @Uuid() toolId: string;
  @Text() name: string;
}

export class OperationResponse {
  @Uuid() id: string;
  @Text() code: string;
  @Text() name: string;
  @Flag() needsLift: boolean;
  @TextList() bayKinds: string[];
  @TextList() skills: string[];
  @TextList() cautions: string[];
  @ListOf(() => OperationToolResponse) tools: OperationToolResponse[];
  @ListOf(() => OperationStepResponse) steps: OperationStepResponse[];
  @Flag() isActive: boolean;
  @Whole({ min: 1 }) version: number;
}
