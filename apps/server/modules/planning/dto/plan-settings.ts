import { Nested, OneOf, Whole } from '../../../platform/http/fields.js';
import { PLAN_MODES, type PlanMode } from '../loading/shop-plan.js';

const MOST = 100_000;
const SCALED =
  'Whole for work that would have begun within `nearMinutes` from now, 3/10 of it for later work.';

export class PlanWeightsFields {
  @Whole({
    min: 1,
    max: 1000,
    description:
      'What a minute after the promised time counts. All other weights are told in such minutes: with 1, a change that weighs 30 is made only where it saves half an hour of lateness or more. A higher figure makes promises count more against changes.',
    example: 1,
  })
  lateness: number;

  @Whole({
    max: MOST,
    unit: 'minutes of lateness',
    description: `What it counts that a work order begins at another time than planned, however little it moves. ${SCALED}`,
    example: 30,
  })
  startMoved: number;

  @Whole({
    max: MOST,
    unit: 'minutes of lateness',
    description: `What each hour counts by which a work order moves, beside \`startMoved\`. ${SCALED}`,
    example: 10,
  })
  hourMoved: number;

  @Whole({
    max: MOST,
    unit: 'minutes of lateness',
    description: `What it counts that another technician does a work order than planned. ${SCALED}`,
    example: 60,
  })
  technicianChanged: number;

  @Whole({
    max: MOST,
    unit: 'minutes of lateness',
    description: `What it counts that a work order is done in another bay than planned. ${SCALED}`,
    example: 30,
  })
  bayChanged: number;

  @Whole({
    max: 43_200,
    unit: 'minutes',
    description: 'Up to so long from now a change counts whole: people and parts are set on it.',
    example: 2880,
  })
  nearMinutes: number;
}

export class PlanSettingsRequest {
  @OneOf(PLAN_MODES, {
    description:
      'by-hand: the plan changes nothing and only says which promises no longer hold. propose: what it would change is a proposal, which a person accepts or rejects. apply: it is changed at once.',
  })
  mode: PlanMode;

  @Nested(() => PlanWeightsFields) weights: PlanWeightsFields;

  @Whole({
    max: 10_080,
    unit: 'minutes',
    description: 'What begins within so long from now keeps its place unless it cannot.',
    example: 120,
  })
  frozenMinutes: number;

  @Whole({ min: 1, max: 120, unit: 'days', description: 'How far ahead is planned.', example: 21 })
  horizonDays: number;
}

export class PlanSettingsResponse extends PlanSettingsRequest {
  @Whole({ description: '0 as long as the shop has the usual settings.' }) version: number;
}
