import { Injectable } from '@nestjs/common';
import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';

/** A vehicle that the desk is taking in. */
export interface Arrival {
  /** Undefined: what is kept for this vehicle today, if that is one thing. Null: nothing of it. */
  readonly reservationId: string | null | undefined;
  readonly vehicleId: string;
  readonly customerId: string;
}

/** What was kept for it before it came. */
export interface KeptForArrival {
  readonly promisedAt: Date | null;
  /** Hands it over to the repair order that is being opened, in the same transaction. */
  readonly handOver: (repairOrderId: string) => Promise<void>;
}

/** Null where nothing is kept. Faults name `/reservationId`. */
export type FindKept = (tx: Tx, arrival: Arrival) => Promise<Result<KeptForArrival | null>>;

/** For a shop that keeps nothing for vehicles before they come. */
export const nothingKept: FindKept = () => Promise.resolve(ok(null));

/** A module that comes later keeps places for vehicles before they come; it registers once, when it starts. */
@Injectable()
export class KeptForArrivals {
  private registered: FindKept = nothingKept;

  register(find: FindKept): void {
    this.registered = find;
  }

  get find(): FindKept {
    return this.registered;
  }
}
