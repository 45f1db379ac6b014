export { checkWorkOrder } from './use-cases/check-work-order.js';
export { finishWorkOrder } from './use-cases/finish-work-order.js';
export { receivePart } from './use-cases/receive-part.js';
export { releaseWorkOrder, type ApprovedLine } from './use-cases/release-work-order.js';
export { setEarlierWorkOrders } from './use-cases/set-earlier-work-orders.js';
export { withdrawWorkOrder } from './use-cases/withdraw-work-order.js';
export { workBegunOnLines } from './use-cases/work-begun-on-lines.js';
export { mayManage } from './use-cases/give-back-claim.js';
export { heldBy, takeClaim } from './data/claim.js';
export {
  allow,
  lookAtWorkOrder,
  mayBegin,
  takeWorkOrderInHand,
  type WorkOrderInHand,
} from './data/in-hand.js';
export { cancelPlace, leaveOutOfPlan, letIntoPlan } from './data/place.js';
export { needsOf, standingOf, type Standing } from './data/standing.mapping.js';
export { cautionTexts, claimOf, holdResponses, placeOf } from './data/work-order.mapping.js';
export { HoldResponse } from './dto/hold.response.js';
export { VehicleLabelResponse, WorkOrderPlaceResponse } from './dto/work-order.response.js';
export { entrySeconds } from './queries/entry-seconds.js';
export { floorNow, type FloorNow } from './queries/floor-now.query.js';
export { timeZoneOf } from './queries/time-zone.query.js';
export { workOrderFacts, type WorkOrderFactsRow } from './queries/work-order-facts.query.js';
