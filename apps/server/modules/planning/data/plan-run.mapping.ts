import type { PlanOutcome } from '../dto/plan-run.request.js';
import type {
  PlanCauseResponse,
  PlanChangeResponse,
  PlanCostResponse,
  PlanDecision,
  PlanPromisesResponse,
  PlanRunResponse,
  PlanRunSummaryResponse,
} from '../dto/plan-run.response.js';

export interface SummaryOfRun {
  readonly id: string;
  readonly causes: PlanCauseResponse[];
  readonly improve: boolean;
  readonly askedAt: Date;
  readonly endedAt: Date | null;
  readonly outcome: PlanOutcome | null;
  readonly detail: string | null;
  readonly changeCount: number;
  readonly promises: PlanPromisesResponse;
  readonly decision: PlanDecision | null;
  readonly decidedAt: Date | null;
  readonly askedById: string | null;
  readonly askedByName: string | null;
  readonly decidedById: string | null;
  readonly decidedByName: string | null;
}

export interface StoredRun extends SummaryOfRun {
  readonly changes: PlanChangeResponse[];
  readonly costBefore: PlanCostResponse | null;
  readonly cost: PlanCostResponse | null;
  readonly latenessBound: number | null;
  readonly solveMs: number | null;
}

const person = (id: string | null, displayName: string | null) =>
  id === null ? null : { id, displayName: displayName ?? '' };

export function runSummary(row: SummaryOfRun): PlanRunSummaryResponse {
  const { id, causes, improve, outcome, detail, changeCount, promises, decision } = row;
  return {
    ...{ id, causes, improve, outcome, detail, changeCount, promises, decision },
    askedAt: row.askedAt.toISOString(),
    askedBy: person(row.askedById, row.askedByName),
    endedAt: row.endedAt?.toISOString() ?? null,
    decidedAt: row.decidedAt?.toISOString() ?? null,
    decidedBy: person(row.decidedById, row.decidedByName),
  };
}

export function runResponse(row: StoredRun): PlanRunResponse {
  const { changes, costBefore, cost, latenessBound, solveMs } = row;
  return { ...runSummary(row), changes, costBefore, cost, latenessBound, solveMs };
}
