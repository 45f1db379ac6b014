import { Nested, Whole } from '../../../platform/http/fields.js';

/** Above it a weight is a slip of the keyboard, and below it the benefits of a whole revision add up exactly. */
const LARGEST = 1_000_000;
const Weight = (description?: string): PropertyDecorator =>
  Whole({ max: LARGEST, ...(description === undefined ? {} : { description }) });

export class StakeWeights {
  @Weight() none: number;
  @Weight() comfort: number;
  @Weight() 'dearer-later': number;
  @Weight() stranded: number;
  @Weight('Waiting may harm people.') harm: number;
}

export class BenefitWeightsRequest {
  @Weight('Work on something with which the car may not be driven.') unsafe: number;
  @Weight('With which the car may be driven to the shop only.') toTheShopOnly: number;
  @Weight('Worn out, and the car may still be driven.') repair: number;
  @Weight('Could be left and looked at again.') watch: number;
  @Weight('Answers no finding: the owner asked for it, or it is upkeep.') asked: number;
  @Nested(() => StakeWeights, { description: 'What is added, by what waiting puts at stake.' })
  consequence: StakeWeights;
}

export class BenefitWeightsResponse extends BenefitWeightsRequest {
  @Whole({ min: 1, description: 'Of the shop and its settings.' }) version: number;
}
