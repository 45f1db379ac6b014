import { fail, type FieldFault, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { TechnicianSkillRow } from '../data/technician-skill.entity.js';
import type { SetSkillsRequest } from '../dto/technician.request.js';
import type { SkillsResponse } from '../dto/technician.response.js';
import { lockTechnician, skillsOf } from '../queries/technicians.query.js';

/**
 * What a technician can do and may do; the list replaces the one before. A skill without a certificate is the
 * manager's word; one with `validUntil` ends on that day, and the planner then passes the person by.
 */
export async function setSkills(
  tx: Tx,
  technicianId: string,
  request: SetSkillsRequest,
): Promise<Result<SkillsResponse>> {
  const names = request.skills.map(({ skill }) => skill);
  const fields: FieldFault[] = names.flatMap((name, at) =>
    names.indexOf(name) === at
      ? []
      : [{ pointer: `/skills/${at}/skill`, detail: `"${name}" is listed twice: list it once.` }],
  );
  if (fields.length > 0) return fail('request-invalid', 'Every skill is listed once.', { fields });
  const here = await lockTechnician(tx, technicianId);
  if (!here.ok) return here;
  const of = { shopId: tx.shopId, technicianId };
  await tx.em.delete(TechnicianSkillRow, of);
  const rows = request.skills.map((entry) => ({
    ...of,
    skill: entry.skill,
    certificate: entry.certificate ?? null,
    validUntil: entry.validUntil ?? null,
  }));
  if (rows.length > 0) await tx.em.insert(TechnicianSkillRow, rows);
  await tx.audit('technician.set-skills', 'staff', technicianId, { skills: request.skills });
  tx.announce('bay', { technicianId });
  return skillsOf(tx, technicianId);
}
