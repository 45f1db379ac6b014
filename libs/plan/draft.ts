import type { PlanModel } from './plan-model.js';

/** Operations between two places at which the state of the floor is kept, so that a change is tried from there on. */
export const STEP = 8;
/** Parts of the cost that are summed while a schedule grows: what decides, what guides, bay time blocked, finish. */
export const COSTS = 4;
export const [HARD, GUIDE, BLOCKED, FINISH] = [0, 1, 2, 3] as const;

/** Where each part of the floor's state stands in one array. */
export interface StateShape {
  readonly holder: number;
  readonly carHold: number;
  readonly ready: number;
  readonly severalBay: number;
  readonly severalLeft: number;
  readonly severalStart: number;
  readonly severalWork: number;
  readonly size: number;
}

/** The times at which resources are free come first, so a resource is its own index. */
export function stateShape(model: PlanModel): StateShape {
  const holder = model.resources;
  const carHold = holder + model.bays;
  const ready = carHold + model.orders;
  const severalBay = ready + model.orders;
  const [severalLeft, severalStart] = [severalBay + model.severals, severalBay + 2 * model.severals];
  const severalWork = severalStart + model.severals;
  const size = severalWork + model.severals;
  return { holder, carHold, ready, severalBay, severalLeft, severalStart, severalWork, size };
}

/**
 * A schedule in two forms: what is chosen (the order in which operations are placed, crews and bays that are wished for,
 * times before which operations do not start), and what comes of it (`Placer`).
 */
export class Draft {
  readonly order: Int32Array;
  /** A crew, or -1 for whoever is done first. */
  readonly wish: Int32Array;
  /** A bay of each hold, or -1 for whichever fits best. */
  readonly bayWish: Int32Array;
  readonly from: Int32Array;
  /** Where each operation stands in the order; -1 for one that is not in it. */
  readonly position: Int32Array;

  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly crew: Int32Array;
  readonly bay: Int32Array;
  /** The units of tools, as in `PlanModel.toolKinds`. */
  readonly unit: Int32Array;

  readonly rows: readonly Int32Array[];
  readonly rowCosts: Float64Array;
  readonly rowIsGood: Uint8Array;
  readonly cost = new Float64Array(COSTS);

  constructor(model: PlanModel, free: readonly number[]) {
    const n = model.operations;
    this.order = new Int32Array(free.length);
    this.wish = new Int32Array(n).fill(-1);
    this.bayWish = new Int32Array(model.holds).fill(-1);
    this.from = new Int32Array(n);
    this.position = new Int32Array(n).fill(-1);
    [this.start, this.end] = [new Int32Array(n).fill(-1), new Int32Array(n).fill(-1)];
    [this.crew, this.bay] = [new Int32Array(n).fill(-1), new Int32Array(n).fill(-1)];
    this.unit = new Int32Array(model.toolKinds.item.length).fill(-1);
    this.setOrder(free);
    const count = Math.floor(free.length / STEP) + 1;
    const { size } = stateShape(model);
    this.rows = Array.from({ length: count }, () => new Int32Array(size));
    this.rowCosts = new Float64Array(count * COSTS);
    this.rowIsGood = new Uint8Array(count);
  }

  /** Takes an order over. */
  setOrder(order: ArrayLike<number>): void {
    this.order.set(order);
    this.order.forEach((o, at) => (this.position[o] = at));
  }

  copyFrom(other: Draft): void {
    this.order.set(other.order);
    this.position.set(other.position);
    this.wish.set(other.wish);
    this.bayWish.set(other.bayWish);
    this.from.set(other.from);
    this.start.set(other.start);
    this.end.set(other.end);
    this.crew.set(other.crew);
    this.bay.set(other.bay);
    this.unit.set(other.unit);
    other.rows.forEach((row, k) => this.rows[k]?.set(row));
    this.rowCosts.set(other.rowCosts);
    this.rowIsGood.set(other.rowIsGood);
    this.cost.set(other.cost);
  }
}
