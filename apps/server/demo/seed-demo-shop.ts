import { DateTime } from 'luxon';
import { ok } from '#libs/kernel';
import { DEMO_ACCOUNTS, DEMO_SHOP_ID } from '../modules/about/index.js';
import { addOperation, addStep } from '../modules/catalogue/index.js';
import { addBay, addSpecialTool, setShifts, setSkills } from '../modules/floor/index.js';
import {
  addLabourRate,
  addStaffMember,
  addTax,
  createShop,
  setPassword,
  setPin,
} from '../modules/identity/index.js';
import type { LinkTokens } from '../modules/estimates/index.js';
import { saveTemplate, setBaseRates } from '../modules/inspections/index.js';
import { enqueuePlan } from '../modules/planning/index.js';
import { systemContext } from '../platform/context.js';
import type { Tx } from '../platform/database/tx.js';
import type { UnitOfWork } from '../platform/database/unit-of-work.js';
import { DEMO_OPERATIONS, DEMO_STEPS, DEMO_TOOLS } from './demo-catalogue.js';
import { DEMO_BAYS, DEMO_MATES, DEMO_PEOPLE, DEMO_SHOP, type DemoPerson, demoShifts } from './demo-floor.js';
import { DEMO_BASE_RATES, DEMO_STATIONS, DEMO_TEMPLATE_NAME } from './demo-template.js';
import { known, must } from './must.js';
import { seedDemoFloor } from './seed-demo-floor.js';

/** Everything in one transaction: a process killed in between leaves no half a shop, and the next start makes a whole one. */
export async function seedDemoShop(uow: UnitOfWork, tokens: LinkTokens): Promise<void> {
  await uow.run(systemContext(DEMO_SHOP_ID, 'demonstration shop'), async (tx) => {
    // Two processes that start at once on one empty database: the second waits here and then finds the shop.
    await tx.em.query(`select pg_advisory_xact_lock(hashtextextended('demo-shop', 0))`);
    if (await tx.one('select 1 from shops where shop_id = $1', [tx.shopId])) return ok(undefined);
    await shop(tx);
    await people(tx);
    for (const bay of DEMO_BAYS)
      must(await addBay(tx, { ...bay, ...(bay.liftKind ? { liftInspectedOn: lastMonth(tx.now) } : {}) }));
    await catalogue(tx);
    must(
      await saveTemplate(tx, {
        name: DEMO_TEMPLATE_NAME,
        stations: DEMO_STATIONS.map((station) => ({
          name: station.name,
          checkpoints: station.checkpoints.map((c) => ({ ...c })),
        })),
      }),
    );
    must(await setBaseRates(tx, '*', { items: DEMO_BASE_RATES.map((rate) => ({ ...rate })) }));
    await seedDemoFloor(tx, tokens);
    enqueuePlan(tx);
    return ok(undefined);
  });
}

function lastMonth(now: Date): string {
  return new Date(now.getTime() - 30 * 86_400_000).toISOString().slice(0, 10);
}

async function shop(tx: Tx): Promise<void> {
  must(
    await createShop(tx, {
      ...DEMO_SHOP,
      dayStartsMinute: 7 * 60,
      dayEndsMinute: 18 * 60,
      taxRounding: 'invoice',
      suppliesRatePpm: 60_000,
      suppliesFloorCents: 0,
      suppliesCapCents: 3500,
      isDemo: true,
    }),
  );
  must(await addLabourRate(tx, { name: 'General repair', centsPerHour: 11_800, isDefault: true }));
  must(await addLabourRate(tx, { name: 'Diagnosis', centsPerHour: 13_600 }));
  must(await addTax(tx, { name: 'Sales tax', ratePpm: 60_000, appliesTo: ['part', 'fluid', 'supplies'] }));
}

async function people(tx: Tx): Promise<void> {
  for (const account of DEMO_ACCOUNTS) {
    const person = DEMO_PEOPLE.find((p) => p.email === account.email);
    if (!person) throw new Error(`demonstration shop: nobody is described for ${account.email}`);
    const id = await member(tx, account.name, person, account.email);
    must(await setPassword(tx, id, { password: account.password }));
  }
  for (const mate of DEMO_MATES) await member(tx, mate.name, mate);
}

async function member(
  tx: Tx,
  displayName: string,
  { roles, pin, skills }: Omit<DemoPerson, 'email'>,
  email?: string,
): Promise<string> {
  const { id } = must(
    await addStaffMember(tx, { displayName, roles: [...roles], ...(email === undefined ? {} : { email }) }),
  );
  if (pin !== undefined) must(await setPin(tx, id, pin));
  if (!skills) return id;
  must(await setSkills(tx, id, { skills: skills.map((skill) => ({ ...skill })) }));
  const now = DateTime.fromJSDate(tx.now, { zone: DEMO_SHOP.timeZone });
  const shifts = demoShifts({ weekday: now.weekday, minute: now.hour * 60 + now.minute });
  must(await setShifts(tx, id, { shifts: shifts.map((shift) => ({ ...shift })) }));
  return id;
}

async function catalogue(tx: Tx): Promise<void> {
  const tools = new Map<string, string>();
  for (const tool of DEMO_TOOLS) tools.set(tool.name, must(await addSpecialTool(tx, tool)).id);
  const steps = new Map<string, string>();
  for (const step of DEMO_STEPS) steps.set(step.code, must(await addStep(tx, step)).id);
  for (const operation of DEMO_OPERATIONS) {
    must(
      await addOperation(tx, {
        code: operation.code,
        name: operation.name,
        needsLift: operation.needsLift,
        bayKinds: [...operation.bayKinds],
        skills: [...operation.skills],
        cautions: [...operation.cautions],
        toolIds: operation.tools.map((name) => known(tools, name)),
        steps: operation.steps.map(({ code, at }) => ({ stepId: known(steps, code), at })),
      }),
    );
  }
}
