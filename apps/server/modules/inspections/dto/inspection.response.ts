import { Flag, ListOf, Nested, OneOf, Text, Uuid, UuidList, Whole } from '../../../platform/http/fields.js';
import { PhotoResponse } from './photo.js';
import { CheckpointResponse } from './template.response.js';

export class ReadingResponse {
  @Text() name: string;
  @Text({ description: 'The digits as they were read.' }) value: string;
  @Text() unit: string;
}

/** What the limit says about the readings. The technician decides, and may overrule it with a reason. */
export class ProposalResponse {
  @OneOf(['sound', 'repair']) verdict: 'sound' | 'repair';
  @OneOf(['within', 'beyond']) outcome: 'within' | 'beyond';
  @Text() limitText: string;
  @Text() limitSource: string;
}

export class ObservationResponse {
  @Uuid() id: string;
  @Uuid() checkpointId: string;
  @OneOf(['sound', 'watch', 'repair', 'unseen']) verdict: string;
  @OneOf(['Sound', 'Watch', 'Repair', 'Unsafe', 'Not seen']) word: string;
  @OneOf(['yes', 'to-the-shop-only', 'no'], { nullable: true }) mayDrive: string | null;
  @Text({ nullable: true }) unseenReason: string | null;
  @Text({ nullable: true }) lookAgainOn: string | null;
  @Whole({ nullable: true }) lookAgainOdometer: number | null;
  @ListOf(() => ReadingResponse) readings: ReadingResponse[];
  @Text({ nullable: true }) note: string | null;
  @Text({ nullable: true }) consequence: string | null;
  @Text({ nullable: true, description: 'The limit that was used, in words.' }) limitText: string | null;
  @Text({ nullable: true }) limitSource: string | null;
  @Nested(() => ProposalResponse, { nullable: true }) proposal: ProposalResponse | null;
  @Uuid({ nullable: true, description: 'The finding that this observation is, for watch and repair.' })
  findingId: string | null;
  @ListOf(() => PhotoResponse) photos: PhotoResponse[];
  @Text() observedByName: string;
  @Text({ description: 'RFC 3339.' }) observedAt: string;
  @Whole({ min: 1 }) version: number;
}

export class CheckpointOnWalk extends CheckpointResponse {
  @Nested(() => ObservationResponse, { nullable: true }) observation: ObservationResponse | null;
}

export class StationOnWalk {
  @Uuid() id: string;
  @Text() name: string;
  @ListOf(() => CheckpointOnWalk) checkpoints: CheckpointOnWalk[];
}

export class ProgressResponse {
  @Whole() total: number;
  @Whole({ description: 'With an observation, unseen ones with their reason included.' }) seen: number;
  @UuidList({ description: 'Checkpoints without an observation, in walking order.' }) missing: string[];
  @Flag() isComplete: boolean;
}

export class InspectionResponse {
  @Uuid() id: string;
  @Uuid() repairOrderId: string;
  @Uuid() templateId: string;
  @Text() templateName: string;
  @Whole({ min: 1 }) edition: number;
  @Text() technicianName: string;
  @Text({ description: 'RFC 3339.' }) startedAt: string;
  @Text({ nullable: true }) completedAt: string | null;
  @Text({ nullable: true }) completedByName: string | null;
  @Nested(() => ProgressResponse) progress: ProgressResponse;
  @ListOf(() => StationOnWalk) stations: StationOnWalk[];
  @Whole({ min: 1, description: 'Grows with every observation and photo.' }) version: number;
}
