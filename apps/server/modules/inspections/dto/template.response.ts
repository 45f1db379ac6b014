import { Flag, ListOf, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class LimitResponse {
  @OneOf(['min', 'max']) comparator: 'min' | 'max';
  @Text() value: string;
  @Text({ description: 'In words: not less than 1.6 mm.' }) text: string;
  @Text() source: string;
}

export class CheckpointResponse {
  @Uuid() id: string;
  @Text() component: string;
  @Text() position: string;
  @Text({ nullable: true }) readingName: string | null;
  @Text({ nullable: true }) readingUnit: string | null;
  @Nested(() => LimitResponse, { nullable: true }) limit: LimitResponse | null;
}

export class StationResponse {
  @Uuid() id: string;
  @Text() name: string;
  @ListOf(() => CheckpointResponse) checkpoints: CheckpointResponse[];
}

export class TemplateSummaryResponse {
  @Uuid() id: string;
  @Text() name: string;
  @Whole({ min: 1 }) edition: number;
  @Flag({ description: 'The latest edition of this name.' }) isCurrent: boolean;
  @Whole() checkpointCount: number;
  @Text({ description: 'RFC 3339.' }) createdAt: string;
}

export class TemplateResponse extends TemplateSummaryResponse {
  @ListOf(() => StationResponse) stations: StationResponse[];
}

export class TemplatesResponse {
  @ListOf(() => TemplateSummaryResponse) items: TemplateSummaryResponse[];
}
