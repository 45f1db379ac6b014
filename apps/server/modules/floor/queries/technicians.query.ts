import { fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type {
  ShiftResponse,
  ShiftsResponse,
  SkillResponse,
  SkillsResponse,
  TechnicianResponse,
} from '../dto/technician.response.js';

const NOT_HERE = 'There is no such technician in this shop.';

const SELECT = `select s.id, s.display_name as "displayName", s.is_active as "isActive",
    coalesce((select json_agg(json_build_object('skill', k.skill, 'certificate', k.certificate, 'validUntil', k.valid_until)
                              order by k.skill)
                from technician_skills k where k.shop_id = s.shop_id and k.technician_id = s.id), '[]') as skills,
    coalesce((select json_agg(json_build_object('weekday', p.weekday, 'fromMinute', p.from_minute, 'toMinute', p.to_minute,
                              'breakFromMinute', p.break_from_minute, 'breakToMinute', p.break_to_minute) order by p.weekday)
                from shift_patterns p where p.shop_id = s.shop_id and p.technician_id = s.id), '[]') as shifts
  from staff s where s.shop_id = $1 and 'technician' = any(s.roles)`;

/** Everybody who works as a technician, those who have left too: their past work is still on the board's days. */
export async function allTechnicians(tx: Tx): Promise<Result<{ items: TechnicianResponse[] }>> {
  const items = await tx.rows<TechnicianResponse>(`${SELECT} order by s.display_name, s.id`, [tx.shopId]);
  return ok({ items });
}

export async function technicianById(tx: Tx, technicianId: string): Promise<Result<TechnicianResponse>> {
  const row = await tx.one<TechnicianResponse>(`${SELECT} and s.id = $2`, [tx.shopId, technicianId]);
  return row ? ok(row) : fail('not-found', NOT_HERE);
}

export async function skillsOf(tx: Tx, technicianId: string): Promise<Result<SkillsResponse>> {
  const found = await technicianById(tx, technicianId);
  return found.ok ? ok({ skills: found.value.skills satisfies SkillResponse[] }) : found;
}

export async function shiftsOf(tx: Tx, technicianId: string): Promise<Result<ShiftsResponse>> {
  const found = await technicianById(tx, technicianId);
  return found.ok ? ok({ shifts: found.value.shifts satisfies ShiftResponse[] }) : found;
}

/** Takes the technician's row, so that two lists replaced at once come one after the other and stay whole. */
export async function lockTechnician(tx: Tx, technicianId: string): Promise<Result<void>> {
  const row = await tx.one(
    `select id from staff where shop_id = $1 and id = $2 and 'technician' = any(roles) for no key update`,
    [tx.shopId, technicianId],
  );
  return row ? ok(undefined) : fail('not-found', NOT_HERE);
}
