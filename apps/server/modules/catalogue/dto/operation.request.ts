import { CAUTION_IDS, type CautionId } from '#libs/cautions';
import { STEP_PLACES, type StepPlace } from '#libs/estimate';
import { Flag, ListOf, OneOf, Text, TextList, Uuid, UuidList } from '../../../platform/http/fields.js';
import { CatalogueQuery, CODE } from './step.request.js';

const BAY_KINDS = ['lift', 'flat', 'alignment'] as const;

export class OperationStepEntry {
  @Uuid() stepId: string;
  @OneOf(STEP_PLACES, {
    description:
      'Where the step is done, seen from the position the operation is ordered for: once per corner, per axle, per vehicle, or at the chosen position itself.',
  })
  at: StepPlace;
}

export class AddOperationRequest {
  @Text({ ...CODE, example: 'FRONT-PADS' }) code: string;
  @Text({ max: 120, example: 'Front brake pads' }) name: string;
  @Flag() needsLift: boolean;
  @TextList({ values: BAY_KINDS, max: 3, description: 'Bays that suit it; empty when any will do.' })
  bayKinds: (typeof BAY_KINDS)[number][];
  @TextList({ max: 20, maxLength: 60, description: 'Skills that the technician must hold.' })
  skills: string[];
  @TextList({ values: CAUTION_IDS, max: 30, description: 'Ids of GET /cautions that go on the ticket.' })
  cautions: CautionId[];
  @UuidList({ max: 20 }) toolIds: string[];
  @ListOf(() => OperationStepEntry, { max: 60 }) steps: OperationStepEntry[];
}

export class ChangeOperationRequest {
  @Text({ max: 120, optional: true }) name?: string;
  @Flag({ optional: true }) needsLift?: boolean;
  @TextList({ values: BAY_KINDS, max: 3, optional: true }) bayKinds?: (typeof BAY_KINDS)[number][];
  @TextList({ max: 20, maxLength: 60, optional: true }) skills?: string[];
  @TextList({ values: CAUTION_IDS, max: 30, optional: true }) cautions?: CautionId[];
  @UuidList({ max: 20, optional: true }) toolIds?: string[];
  @ListOf(() => OperationStepEntry, { max: 60, optional: true }) steps?: OperationStepEntry[];
  @Flag({ optional: true, description: 'False takes it out of the search; lines already written keep it.' })
  isActive?: boolean;
}

export class OperationsQuery extends CatalogueQuery {
  @OneOf(['yes', 'no'], { optional: true, description: 'yes: also those that are no longer in use.' })
  all?: 'yes' | 'no';
}
