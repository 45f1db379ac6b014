export { EstimatesModule } from './estimates.module.js';
export { LinkTokens, type ReadToken } from './link-tokens.js';
export { ApprovalLinkRow } from './data/approval-link.entity.js';
export {
  agreedCharges,
  chargedCents,
  frozenContingency,
  offeredContingency,
  openCapsCents,
  triggerResponse,
} from './data/contingency.mapping.js';
export { choiceResponse, savedCents } from './data/choice.mapping.js';
export { named, namesIn } from './data/named.js';
export { ContingencyTriggerResponse } from './dto/contingency.response.js';
export { discountResponse, orderDiscountResponse } from './data/discount.mapping.js';
export { DiscountResponse, OrderDiscountResponse } from './dto/discount.js';
export { DecisionResponse } from './dto/decision.response.js';
export { FiguresResponse, figuresResponse } from './dto/figures.response.js';
export { ChoiceRequest, ChoiceResponse } from './dto/revision.response.js';
export { ChoicesResponse, SumRequest } from './dto/choices.js';
export {
  agreedLines,
  linesToChoose,
  setsQuestion,
  type LineToChoose,
} from './queries/offer-to-choose.query.js';
export { contingenciesOf, type ContingencyFacts, type TriggerFacts } from './queries/contingencies.query.js';
export { RangeResponse } from './dto/range.response.js';
export { rangeOfOffer, sentRangeFacts } from './queries/range.query.js';
export { linesOf, type LineFacts } from './queries/lines.query.js';
export { everythingAgreed, loadOffer, priceOffer, type Offer } from './queries/offer.query.js';
export {
  DECISION_COLUMNS,
  decisionResponse,
  standingDecisions,
  type LatestDecision,
} from './queries/standing-decisions.query.js';
export { Choices } from './solving/choices.js';
export { SetsSolver, type Solved } from './solving/sets-solver.js';
export { AUTHORISATION_NOTICE, MAY_DRIVE_WORDS } from './shown-words.js';
export { addContingency } from './use-cases/add-contingency.js';
export { addLine } from './use-cases/add-line.js';
export { holdStay } from './use-cases/hold-stay.js';
export { makeLink, revokeLink } from './use-cases/make-link.js';
export { sendRevision } from './use-cases/send-revision.js';
