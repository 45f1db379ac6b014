import { ApiProperty } from '@nestjs/swagger';
import { OneOf, Text } from '../../../platform/http/fields.js';
import { VIN_VERDICTS } from './vehicle.response.js';

export class VinCheckResponse {
  @OneOf(VIN_VERDICTS) verdict: string;
  @Text({ min: 0 }) normalised: string;
  @Text({ nullable: true, description: 'What the ninth character has to be.' }) checkDigit: string | null;
  @ApiProperty({ type: 'integer', isArray: true, description: 'What the tenth character can stand for.' })
  modelYears: number[];
  @Text({ description: 'Stable, such as CHECK_DIGIT.' }) reason: string;
  @Text({ description: 'For the person at the desk: what is wrong and what to do.' }) sentence: string;
}
