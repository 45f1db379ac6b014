import { UNIT_NAMES } from '#libs/inspection';
import { POSITIONS } from '#libs/estimate';
import { DecimalText, ListOf, Nested, OneOf, Text } from '../../../platform/http/fields.js';

export class LimitEntry {
  @OneOf(['min', 'max'], { description: 'min: not less than the value; max: not more.' })
  comparator: 'min' | 'max';
  @DecimalText({ example: '1.6', description: 'In the unit of the reading.' }) value: string;
  @Text({
    max: 200,
    description: "Where the limit comes from. The vehicle maker's figure and local law come first.",
  })
  source: string;
}

export class CheckpointEntry {
  @Text({ max: 80, example: 'Brake pads' }) component: string;
  @OneOf(POSITIONS) position: string;
  @Text({ max: 60, optional: true, nullable: true, description: 'What is measured, where something is.' })
  readingName?: string | null;
  @OneOf(UNIT_NAMES, { optional: true, nullable: true }) readingUnit?: string | null;
  @Nested(() => LimitEntry, { optional: true, nullable: true }) limit?: LimitEntry | null;
}

export class StationEntry {
  @Text({ max: 80, example: 'Lift at knee height, front wheels', description: 'A place to stand.' })
  name: string;
  @ListOf(() => CheckpointEntry, { max: 60 }) checkpoints: CheckpointEntry[];
}

export class SaveTemplateRequest {
  @Text({ max: 80, description: 'Saving under a name that exists makes its next edition.' }) name: string;
  @ListOf(() => StationEntry, { max: 30, description: 'In walking order.' }) stations: StationEntry[];
}

export class TemplatesQuery {
  @OneOf(['yes', 'no'], { optional: true, description: 'yes: earlier editions too.' }) all?: 'yes' | 'no';
}
