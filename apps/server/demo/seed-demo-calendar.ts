import { closeDay, recordAbsence } from '../modules/floor/index.js';
import type { DemoScene } from './demo-scene.js';
import { must } from './must.js';

/** What the next weeks hold: somebody away on a day of next week, and a day on which the shop is closed. */
export async function seedDemoCalendar(scene: DemoScene): Promise<void> {
  const desk = scene.as('Wenna', 190);
  must(
    await recordAbsence(desk, scene.staffId('Mattis'), {
      startsAt: scene.weekdayAhead({ weeks: 1, weekday: 2 }).toJSDate().toISOString(),
      endsAt: scene.weekdayAhead({ weeks: 1, weekday: 3 }).toJSDate().toISOString(),
      reason: 'Course on measuring bays',
    }),
  );
  const manager = scene.as('Orla', 120);
  const day = scene.weekdayAhead({ weeks: 3, weekday: 5 }).toFormat('yyyy-MM-dd');
  must(await closeDay(manager, { day, name: 'Stock taking' }));
}
