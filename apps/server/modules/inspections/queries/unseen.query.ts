import { cents, ppm } from '#libs/kernel';
import type { FrozenUnseen } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { titleOf } from '../data/checkpoint.mapping.js';

interface UnseenRow {
  checkpointId: string;
  component: string;
  position: string;
  chancePpm: number;
  lowCents: number;
  likelyCents: number;
  highCents: number;
}

/**
 * What could not be seen on the latest walk over the vehicle and has a base rate of the shop at the vehicle's age. Its
 * age is the year now, where the shop is, less its model year; without one only rates for any age hold.
 */
export async function unseenOf(tx: Tx, repairOrderId: string): Promise<FrozenUnseen[]> {
  const rows = await tx.rows<UnseenRow>(
    `select c.id as "checkpointId", c.component, c.position, b.chance_ppm as "chancePpm", b.low_cents as "lowCents",
        b.likely_cents as "likelyCents", b.high_cents as "highCents"
       from repair_orders r
       join shops z on z.shop_id = r.shop_id
       join vehicles v on v.shop_id = r.shop_id and v.id = r.vehicle_id
       join lateral (select i.id from inspections i where i.shop_id = r.shop_id and i.repair_order_id = r.id
                      order by i.started_at desc, i.id desc limit 1) latest on true
       join observations o on o.shop_id = r.shop_id and o.inspection_id = latest.id and o.verdict = 'unseen'
       join checkpoints c on c.shop_id = o.shop_id and c.id = o.checkpoint_id
       join stations s on s.shop_id = c.shop_id and s.id = c.station_id
       join base_rates b on b.shop_id = r.shop_id and lower(b.component) = lower(c.component)
        and case when v.model_year is null then b.from_years is null and b.to_years is null
            else greatest(0, extract(year from $3::timestamptz at time zone z.time_zone)::integer - v.model_year)
                 between coalesce(b.from_years, 0) and coalesce(b.to_years, 2147483647) end
      where r.shop_id = $1 and r.id = $2
      order by s.sequence, c.sequence`,
    [tx.shopId, repairOrderId, tx.now],
  );
  return rows.map(({ checkpointId, component, position, ...rate }) => ({
    checkpointId,
    words: titleOf({ component, position }),
    chancePpm: ppm(rate.chancePpm),
    lowCents: cents(rate.lowCents),
    likelyCents: cents(rate.likelyCents),
    highCents: cents(rate.highCents),
  }));
}
