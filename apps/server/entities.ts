import { AuditEntryRow } from './platform/database/data/audit-entry.entity.js';
import { LiveEventRow } from './platform/database/data/live-event.entity.js';
import { IdempotencyKeyRow } from './platform/database/data/idempotency-key.entity.js';
import { CounterRow } from './platform/database/data/counter.entity.js';
import { ShopRow } from './modules/identity/data/shop.entity.js';
import { LabourRateRow } from './modules/identity/data/labour-rate.entity.js';
import { TaxRow } from './modules/identity/data/tax.entity.js';
import { StaffMemberRow } from './modules/identity/data/staff-member.entity.js';
import { DeviceRow } from './modules/identity/data/device.entity.js';
import { SessionRow } from './modules/identity/data/session.entity.js';
import { RefreshTokenRow } from './modules/identity/data/refresh-token.entity.js';
import { CustomerRow } from './modules/vehicles/data/customer.entity.js';
import { VehicleRow } from './modules/vehicles/data/vehicle.entity.js';
import { OwnershipRow } from './modules/vehicles/data/ownership.entity.js';
import { OdometerReadingRow } from './modules/vehicles/data/odometer-reading.entity.js';
import { BayRow } from './modules/floor/data/bay.entity.js';
import { SpecialToolRow } from './modules/floor/data/special-tool.entity.js';
import { TechnicianSkillRow } from './modules/floor/data/technician-skill.entity.js';
import { ShiftPatternRow } from './modules/floor/data/shift-pattern.entity.js';
import { ClosedDayRow } from './modules/floor/data/closed-day.entity.js';
import { AbsenceRow } from './modules/floor/data/absence.entity.js';
import { BayClosureRow } from './modules/floor/data/bay-closure.entity.js';
import { ToolClosureRow } from './modules/floor/data/tool-closure.entity.js';
import { StepRow } from './modules/catalogue/data/step.entity.js';
import { OperationRow } from './modules/catalogue/data/operation.entity.js';
import { OperationStepRow } from './modules/catalogue/data/operation-step.entity.js';
import { PackageRow } from './modules/catalogue/data/package.entity.js';
import { PackageOperationRow } from './modules/catalogue/data/package-operation.entity.js';
import { OperationToolRow } from './modules/catalogue/data/operation-tool.entity.js';
import { RepairOrderRow } from './modules/repair-orders/data/repair-order.entity.js';
import { InspectionTemplateRow } from './modules/inspections/data/inspection-template.entity.js';
import { StationRow } from './modules/inspections/data/station.entity.js';
import { BaseRateRow } from './modules/inspections/data/base-rate.entity.js';
import { CheckpointRow } from './modules/inspections/data/checkpoint.entity.js';
import { InspectionRow } from './modules/inspections/data/inspection.entity.js';
import { ObservationRow } from './modules/inspections/data/observation.entity.js';
import { ReadingRow } from './modules/inspections/data/reading.entity.js';
import { FindingRow } from './modules/inspections/data/finding.entity.js';
import { PhotoRow } from './modules/inspections/data/photo.entity.js';
import { RevisionRow } from './modules/estimates/data/revision.entity.js';
import { LineRow } from './modules/estimates/data/line.entity.js';
import { LineFindingRow } from './modules/estimates/data/line-finding.entity.js';
import { LineOperationRow } from './modules/estimates/data/line-operation.entity.js';
import { LineStepRow } from './modules/estimates/data/line-step.entity.js';
import { LineItemRow } from './modules/estimates/data/line-item.entity.js';
import { ContingencyRow } from './modules/estimates/data/contingency.entity.js';
import { ContingencyItemRow } from './modules/estimates/data/contingency-item.entity.js';
import { LineRelationRow } from './modules/estimates/data/line-relation.entity.js';
import { ApprovalLinkRow } from './modules/estimates/data/approval-link.entity.js';
import { DecisionRow } from './modules/approvals/data/decision.entity.js';
import { ContingencyDecisionRow } from './modules/approvals/data/contingency-decision.entity.js';
import { ContingencyTriggerRow } from './modules/contingencies/data/contingency-trigger.entity.js';
import { WorkOrderRow } from './modules/work-orders/data/work-order.entity.js';
import { WorkOrderToolRow } from './modules/work-orders/data/work-order-tool.entity.js';
import { WorkOrderPrecedenceRow } from './modules/work-orders/data/work-order-precedence.entity.js';
import { ClaimRow } from './modules/work-orders/data/claim.entity.js';
import { PartExpectationRow } from './modules/work-orders/data/part-expectation.entity.js';
import { PartReceiptRow } from './modules/work-orders/data/part-receipt.entity.js';
import { AssignmentRow } from './modules/scheduling/data/assignment.entity.js';
import { AssignmentToolRow } from './modules/scheduling/data/assignment-tool.entity.js';
import { ReservationRow } from './modules/reservations/data/reservation.entity.js';
import { ReservationOperationRow } from './modules/reservations/data/reservation-operation.entity.js';
import { ReservationOperationToolRow } from './modules/reservations/data/reservation-operation-tool.entity.js';
import { ClockEntryRow } from './modules/time-clock/data/clock-entry.entity.js';
import { AttendanceEntryRow } from './modules/time-clock/data/attendance-entry.entity.js';
import { PlanSettingsRow } from './modules/planning/data/plan-settings.entity.js';
import { PlanRunRow } from './modules/planning/data/plan-run.entity.js';
import { WhatIfRow } from './modules/what-ifs/data/what-if.entity.js';
import { PlanLeftOutRow } from './modules/planning/data/plan-left-out.entity.js';

/** Every table. A list, not a file pattern: type-checked, and the comparison with the migrations reads it. */
export const entities = [
  AuditEntryRow,
  LiveEventRow,
  IdempotencyKeyRow,
  CounterRow,
  ShopRow,
  LabourRateRow,
  TaxRow,
  StaffMemberRow,
  DeviceRow,
  SessionRow,
  RefreshTokenRow,
  CustomerRow,
  VehicleRow,
  OwnershipRow,
  OdometerReadingRow,
  BayRow,
  SpecialToolRow,
  TechnicianSkillRow,
  ShiftPatternRow,
  ClosedDayRow,
  AbsenceRow,
  BayClosureRow,
  ToolClosureRow,
  StepRow,
  OperationRow,
  OperationStepRow,
  OperationToolRow,
  PackageRow,
  PackageOperationRow,
  RepairOrderRow,
  BaseRateRow,
  InspectionTemplateRow,
  StationRow,
  CheckpointRow,
  InspectionRow,
  ObservationRow,
  ReadingRow,
  FindingRow,
  PhotoRow,
  RevisionRow,
  LineRow,
  LineFindingRow,
  LineOperationRow,
  LineStepRow,
  LineItemRow,
  LineRelationRow,
  ContingencyRow,
  ContingencyItemRow,
  ApprovalLinkRow,
  DecisionRow,
  ContingencyDecisionRow,
  ContingencyTriggerRow,
  WorkOrderRow,
  WorkOrderToolRow,
  WorkOrderPrecedenceRow,
  ClaimRow,
  PartExpectationRow,
  PartReceiptRow,
  AssignmentRow,
  AssignmentToolRow,
  ReservationRow,
  ReservationOperationRow,
  ReservationOperationToolRow,
  ClockEntryRow,
  AttendanceEntryRow,
  PlanSettingsRow,
  PlanRunRow,
  WhatIfRow,
  PlanLeftOutRow,
];
