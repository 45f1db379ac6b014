import type { Cents, Ppm } from '#libs/kernel';

/**
 * What the whole order is sold below its price: a percentage of labour, of items, or of both; or an amount, once for
 * the order, spread over labour, parts, fluids and sublet by what they cost. Fees, core deposits and supplies are not reduced.
 */
export type OrderDiscount =
  | {
      readonly labourPpm?: Ppm;
      readonly itemsPpm?: Ppm;
      readonly cents?: undefined;
      readonly reason?: string;
    }
  | {
      readonly cents: Cents;
      readonly labourPpm?: undefined;
      readonly itemsPpm?: undefined;
      readonly reason?: string;
    };
