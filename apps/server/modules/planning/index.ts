export { PlanningModule } from './planning.module.js';
export { enqueuePlan } from './data/enqueue-plan.js';
export { withNames } from './loading/names.js';
export { loadShopPlan } from './loading/load-shop-plan.js';
export { placesOf } from './loading/places-of.js';
export { PlanContributors } from './loading/plan-contributors.js';
export { unitId, unitOf } from './loading/resources.js';
export type {
  FinishedPlace,
  NotPlannable,
  PlanContribution,
  PlanContributor,
  PlanHorizon,
  PlanMode,
  PlannedPlace,
  PlannedWorkOrder,
  PlanNote,
  ShopPlan,
  StoredPlace,
  ToolUnit,
} from './loading/shop-plan.js';
export { PlanningThread } from './planning-thread/planning-thread.js';
export { makeRoom, withVisitor, type RoomFound, type Visitor } from './use-cases/make-room.js';
export type { AskedOfPlan, FoundInPlan } from './planning-thread/compute.js';
export { noPlaceWords } from './loading/no-place-words.js';
