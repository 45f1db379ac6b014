export { EstimatesModule } from './estimates.module.js';
export { LinkTokens, type ReadToken } from './link-tokens.js';
export { ApprovalLinkRow } from './data/approval-link.entity.js';
export { choiceResponse, savedCents } from './data/choice.mapping.js';
export { named, namesIn } from './data/named.js';
export { DecisionResponse } from './dto/decision.response.js';
export { FiguresResponse, figuresResponse } from './dto/figures.response.js';
export { ChoiceRequest, ChoiceResponse } from './dto/revision.response.js';
export { linesOf, type LineFacts } from './queries/lines.query.js';
export { loadOffer, priceOffer, type Offer } from './queries/offer.query.js';
export {
  DECISION_COLUMNS,
  decisionResponse,
  standingDecisions,
  type LatestDecision,
} from './queries/standing-decisions.query.js';
export { AUTHORISATION_NOTICE } from './shown-words.js';
export { addLine } from './use-cases/add-line.js';
export { holdStay } from './use-cases/hold-stay.js';
export { makeLink, revokeLink } from './use-cases/make-link.js';
export { sendRevision } from './use-cases/send-revision.js';
