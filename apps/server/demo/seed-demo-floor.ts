import { clockOff, clockOn, comeIn } from '../modules/time-clock/index.js';
import { checkWorkOrder, finishWorkOrder } from '../modules/work-orders/index.js';
import type { LinkTokens } from '../modules/estimates/index.js';
import type { Tx } from '../platform/database/tx.js';
import { DemoScene } from './demo-scene.js';
import type { Ago, DemoStay, DemoWork, Who } from './demo-stay.js';
import { DEMO_STAYS } from './demo-stays.js';
import { must } from './must.js';
import { seedDemoCalendar } from './seed-demo-calendar.js';
import { StayStory } from './stay-story.js';

/** Something that a person did some minutes before the shop is made. */
interface Happening {
  readonly ago: Ago;
  readonly who: Who;
  readonly act: (tx: Tx) => Promise<unknown>;
}

const ARRIVAL: Ago = 265;
const TECHNICIANS = ['Bram', 'Saffi', 'Juno', 'Mattis'] as const;

/**
 * A floor in the middle of its day. What happened is not written but done: every act is the use case that a screen
 * would have called, by the person and at the time, and in the order in which it happened over all cars, because the
 * clock of a technician and the numbers of orders run in that order.
 */
export async function seedDemoFloor(tx: Tx, tokens: LinkTokens): Promise<void> {
  const scene = await DemoScene.of(tx, tokens);
  const happenings = [
    ...TECHNICIANS.map((who): Happening => ({ ago: ARRIVAL, who, act: async (t) => must(await comeIn(t)) })),
    ...DEMO_STAYS.flatMap((stay) => happeningsOf(stay, new StayStory(stay, scene))),
  ];
  for (const { ago, who, act } of happenings.sort((a, b) => b.ago - a.ago)) await act(scene.as(who, ago));
  await seedDemoCalendar(scene);
}

function happeningsOf(stay: DemoStay, story: StayStory): Happening[] {
  const { walk, offer } = stay;
  const desk = (ago: Ago, act: Happening['act']): Happening => ({ ago, who: 'Wenna', act });
  return [
    desk(stay.droppedOff, (tx) => story.dropOff(tx)),
    ...(walk ? [{ ago: walk.began, who: walk.by, act: (tx: Tx) => story.walk(tx, walk) }] : []),
    ...(offer ? [desk(offer.sent, (tx) => story.send(tx, offer.lines))] : []),
    ...(offer?.answered === undefined ? [] : [desk(offer.answered, (tx) => story.answer(tx, offer.lines))]),
    ...(offer?.lines ?? []).flatMap(({ title, work }) =>
      work ? workOn(work, () => story.workOrderOf(title)) : [],
    ),
  ];
}

function workOn({ on, paused, finished, checked }: DemoWork, workOrder: () => string): Happening[] {
  if (!on) return [];
  const { who } = on;
  return [
    { ...on, act: async (tx) => must(await clockOn(tx, { workOrderId: workOrder() })) },
    ...(paused
      ? [{ ago: paused.ago, who, act: async (tx: Tx) => must(await clockOff(tx, 'pause', paused.reason)) }]
      : []),
    ...(finished === undefined
      ? []
      : [{ ago: finished, who, act: async (tx: Tx) => must(await finishWorkOrder(tx, workOrder())) }]),
    ...(checked
      ? [
          {
            ...checked,
            act: async (tx: Tx) => must(await checkWorkOrder(tx, workOrder(), { passed: true })),
          },
        ]
      : []),
  ];
}
