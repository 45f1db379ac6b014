import { FINDINGS_AT_LEAST, LOOKED_AT, SEEN, type Seen } from '../scenario.js';
import { expectEqual, expectThat, type Cast, type Tell } from '../story.js';
import type { Stay } from './drop-off.js';

interface Checkpoint {
  readonly id: string;
  readonly component: string;
  readonly position: string;
  readonly readingName: string | null;
}

interface Walk {
  readonly id: string;
  readonly stations: readonly { readonly name: string; readonly checkpoints: readonly Checkpoint[] }[];
}

export interface Finding {
  readonly id: string;
  readonly observationId: string | null;
  readonly title: string;
  readonly word: string;
}

/** Findings by the checkpoint at which they were seen. */
export type Findings = ReadonlyMap<string, string>;

export const placeKey = (component: string, position: string): string => `${component}@${position}`;

// One white pixel: a photo only has to be a photo here.
const PIXEL = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mP8z8BQDwAEhQGAhKmMIQAAAABJRU5ErkJggg==',
  'base64',
);

const ODOMETER = 218_430;

function observationOf(checkpoint: Checkpoint, seen: Seen | undefined): object {
  if (!seen) {
    return { verdict: 'sound' };
  }
  return {
    verdict: seen.verdict,
    ...(seen.mayDrive ? { mayDrive: seen.mayDrive } : {}),
    ...(seen.unseenReason ? { unseenReason: seen.unseenReason } : {}),
    ...(seen.lookAgainInKm ? { lookAgainOdometer: ODOMETER + seen.lookAgainInKm } : {}),
    ...(seen.reading ? { readings: [{ ...seen.reading, name: checkpoint.readingName ?? 'reading' }] } : {}),
    ...(seen.note ? { note: seen.note } : {}),
    ...(seen.consequence ? { consequence: seen.consequence } : {}),
  };
}

/** The technician walks the car end to end and records sound and bad parts alike. */
export async function inspect(cast: Cast, stay: Stay, tell: Tell): Promise<{ count: number; at: Findings }> {
  const { technician } = cast;
  const templates = await technician.get<{ items: { id: string; name: string }[] }>('/inspection-templates');
  const template = templates.items[0];
  if (!template) throw new Error('the shop has no inspection template');
  const walk = await technician.post<Walk>(`/repair-orders/${stay.repairOrderId}/inspections`, {
    templateId: template.id,
  });
  const seenAt = new Map(SEEN.map((s) => [placeKey(s.component, s.position), s]));
  const at = new Map<string, string>();
  let looked = 0;
  for (const station of walk.stations) {
    for (const checkpoint of station.checkpoints) {
      const seen = seenAt.get(placeKey(checkpoint.component, checkpoint.position));
      const observation = await technician.put<{ id: string; findingId: string | null }>(
        `/inspections/${walk.id}/observations/${checkpoint.id}`,
        observationOf(checkpoint, seen),
      );
      looked += 1;
      if (observation.findingId)
        at.set(placeKey(checkpoint.component, checkpoint.position), observation.findingId);
      if (seen?.mayDrive === 'no')
        await technician.upload(
          `/observations/${observation.id}/photos`,
          'photo',
          'seen.png',
          new Uint8Array(PIXEL),
        );
    }
  }
  expectEqual(looked, LOOKED_AT, 'checkpoints looked at');
  await technician.post(`/inspections/${walk.id}/complete`);
  const { items } = await technician.get<{ items: Finding[] }>(
    `/repair-orders/${stay.repairOrderId}/findings`,
  );
  expectThat(
    items.length >= FINDINGS_AT_LEAST,
    `at least ${FINDINGS_AT_LEAST} findings, got ${items.length}`,
  );
  const unsafe = items.filter((f) => f.word === 'Unsafe').map((f) => f.title);
  tell(
    technician.who,
    `walks ${looked} checkpoints at ${walk.stations.length} stations: ${items.length} findings. Unsafe: ${unsafe.join('; ')}.`,
    { checkpoints: looked, findings: items.length },
  );
  return { count: items.length, at };
}
