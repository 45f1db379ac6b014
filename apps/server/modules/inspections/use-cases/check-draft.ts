import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import { checkObservation, dimensionOf, UNIT_NAMES } from '#libs/inspection';
import { unitOf, type StoredCheckpoint } from '../data/checkpoint.mapping.js';
import { observationOf, type ObservationDraft } from '../data/observation-draft.js';
import { proposalFor } from '../data/proposal.js';
import type { ProposalResponse } from '../dto/inspection.response.js';

/** Whether what is said belongs together; the answer is what the limit proposes. All faults at once. */
export function checkDraft(
  draft: ObservationDraft,
  checkpoint: StoredCheckpoint,
): Result<ProposalResponse | null> {
  const unit = unitOf(checkpoint);
  const readingUnits = UNIT_NAMES.filter((u) => unit !== null && dimensionOf(u) === dimensionOf(unit));
  const checked = checkObservation(observationOf(draft, checkpoint.id), { readingUnits });
  const proposal = proposalFor(checkpoint, draft.readings);
  const fields = [
    ...(checked.ok ? [] : (checked.fault.fields ?? [])),
    ...seenAfterAll(draft),
    ...namesTwice(draft),
    ...overruledInSilence(draft, proposal),
  ];
  if (fields.length === 0) return ok(proposal);
  return fail('observation-not-consistent', 'The observation does not say all that its verdict needs.', {
    fields,
  });
}

function seenAfterAll({ verdict, unseenReason }: ObservationDraft): FieldFault[] {
  if (verdict === 'unseen' || unseenReason === null) return [];
  return [{ pointer: '/unseenReason', detail: `A part that is ${verdict} was seen: leave the reason out.` }];
}

function namesTwice({ readings }: ObservationDraft): FieldFault[] {
  const names = readings.map(({ name }) => name);
  return names.flatMap((name, at) =>
    names.indexOf(name) === at
      ? []
      : [{ pointer: `/readings/${at}/name`, detail: `"${name}" was given already: name the place.` }],
  );
}

/** The technician decides, not the limit; but whoever reads the sheet must learn why. */
function overruledInSilence(draft: ObservationDraft, proposal: ProposalResponse | null): FieldFault[] {
  const overruled =
    proposal?.outcome === 'beyond' && (draft.verdict === 'sound' || draft.verdict === 'watch');
  if (!overruled || draft.note !== null) return [];
  return [
    {
      pointer: '/note',
      detail: `The limit says repair (${proposal.limitText}, ${proposal.limitSource}). Say why you see it otherwise.`,
    },
  ];
}
