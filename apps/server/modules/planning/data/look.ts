export const LOOK_KINDS = [
  'overrun',
  'late-start',
  'proposal-old',
  'reservation-over',
  'part-overdue',
] as const;

/** What passes without anybody writing anything. */
export interface Look {
  readonly kind: (typeof LOOK_KINDS)[number];
  readonly at: Date;
  /** The work order, where it is about one. */
  readonly workOrderId: string | null;
}

/** As a job carries it. */
export interface LookPayload {
  readonly kind: string;
  readonly at: string;
  readonly workOrderId: string | null;
}

export const lookPayload = ({ kind, at, workOrderId }: Look): LookPayload => ({
  ...{ kind, at: at.toISOString(), workOrderId },
});

/** Null for a job without one. */
export function lookOf(payload: unknown): Look | null {
  const { kind, at, workOrderId } = (payload ?? {}) as Partial<LookPayload>;
  const known = LOOK_KINDS.find((one) => one === kind);
  return known === undefined || at === undefined
    ? null
    : { kind: known, at: new Date(at), workOrderId: workOrderId ?? null };
}
