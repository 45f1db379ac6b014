import { fail, ok } from '#libs/kernel';
import type { Fault, FieldFault, Result } from '#libs/kernel';
import type { AlreadyAgreed } from './already-agreed.js';
import type { ChoiceFault } from './check-choice.js';
import { freezeFigures, freezeLine, present } from './freeze-line.js';
import type { FrozenRevision, RevisionLine, RevisionToFreeze } from './frozen-revision.js';
import type { LinePackage } from './line-package.js';
import type { OrderDiscount } from './order-discount.js';
import { packageSteps } from './package-hours.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy } from './pricing-policy.js';

/** `revision-empty`: nothing to decide on. `line-words-missing`: a line does not say all that the owner must read. */
export type FreezeFault = ChoiceFault | Fault<'revision-empty' | 'line-words-missing'>;

function missingWords(lines: readonly RevisionLine[]): FieldFault[] {
  return lines.flatMap((line, at) => {
    const { title, verdict, why } = line;
    // Work that answers no finding has neither a verdict nor anything that could wait.
    const consequence = line.consequence ?? (verdict === null ? 'none' : '');
    const words = { title, verdict: verdict ?? 'none', why, consequence };
    const blank = Object.entries(words).filter(([, text]) => text.trim() === '');
    const items = line.items.flatMap((item, index) =>
      item.words.trim() === ''
        ? [{ pointer: `/lines/${at}/items/${index}/words`, detail: 'Name the item.' }]
        : [],
    );
    return [
      ...blank.map(([key]) => ({ pointer: `/lines/${at}/${key}`, detail: 'The owner must read this.' })),
      ...items,
    ];
  });
}

function freezePolicy(policy: PricingPolicy): PricingPolicy {
  const { taxes, taxRounding, taxesCombined, supplies } = policy;
  return {
    taxes: taxes.map(({ name, ratePpm, on }) => ({ name, ratePpm, on: [...on] })),
    taxRounding,
    ...present({ taxesCombined }),
    supplies: supplies && {
      ratePpm: supplies.ratePpm,
      floorCents: supplies.floorCents,
      capCents: supplies.capCents,
      ...present({ base: supplies.base }),
    },
  };
}

function freezeGiven(given: AlreadyAgreed): AlreadyAgreed {
  const { suppliesBaseCents, orderDiscountCents } = given;
  return {
    steps: given.steps.map(({ step, position, hundredths, package: under }) => ({
      step,
      position,
      ...present({ hundredths, package: under }),
    })),
    labourCents: given.labourCents,
    suppliesCents: given.suppliesCents,
    ...present({
      suppliesBaseCents,
      orderDiscountCents,
      packages: given.packages?.map(({ package: name, lineIds }) => ({
        package: name,
        lineIds: [...lineIds],
      })),
    }),
  };
}

function freezeOrderDiscount(discount: OrderDiscount): OrderDiscount {
  const { reason } = discount;
  if (discount.cents !== undefined) return { cents: discount.cents, ...present({ reason }) };
  return present({ labourPpm: discount.labourPpm, itemsPpm: discount.itemsPpm, reason });
}

/** With the hours that its steps are sold at, because some of its lines may no longer be open when others are priced. */
function freezePackage(
  { name, lineIds, hundredths, steps }: LinePackage,
  lines: readonly RevisionLine[],
): LinePackage {
  const members = lines.filter(({ id }) => lineIds.includes(id));
  const isWhole = members.length === new Set(lineIds).size;
  const sold = steps ?? (isWhole ? packageSteps(members, hundredths) : undefined);
  return {
    name,
    lineIds: [...lineIds],
    hundredths,
    ...present({
      steps: sold?.map(({ step, position, hundredths: hours }) => ({ step, position, hundredths: hours })),
    }),
  };
}

function extrasOf({
  lines,
  orderDiscount,
  packages,
  unseen,
  vehicleValueCents,
}: RevisionToFreeze): Partial<FrozenRevision> {
  return present({
    orderDiscount: orderDiscount && freezeOrderDiscount(orderDiscount),
    packages: packages?.map((own) => freezePackage(own, lines)),
    unseen: unseen?.map(({ checkpointId, words, chancePpm, lowCents, likelyCents, highCents }) => ({
      checkpointId,
      words,
      chancePpm,
      lowCents,
      likelyCents,
      highCents,
    })),
    vehicleValueCents,
  });
}

/**
 * The document of a revision as it is sent: the words, the figures alone and with everything chosen, the policy and what
 * was agreed before. Plain JSON of texts, whole numbers and nulls; `canonicalJson` gives the text whose hash is kept
 * as evidence of what was shown.
 */
export function freezeRevision(revision: RevisionToFreeze): Result<FrozenRevision, FreezeFault> {
  const { about, lines, given, policy } = revision;
  if (lines.length === 0) return fail('revision-empty', 'Add a line before the revision is sent.');
  const fields = missingWords(lines);
  if (fields.length > 0) {
    return fail('line-words-missing', 'The owner cannot decide on a line that does not say what it is.', {
      fields,
    });
  }
  const { orderDiscount, packages } = revision;
  const chosen = lines.map(({ id }) => id);
  const priced = priceChoice({ lines, chosen, given, policy, orderDiscount, packages });
  if (!priced.ok) return priced;
  const { lines: prices, totals } = priced.value;
  return ok({
    format: 2,
    about: { ...about },
    lines: lines.flatMap((line, at) => {
      const price = prices[at];
      return price === undefined ? [] : [freezeLine(line, price)];
    }),
    given: freezeGiven(given),
    policy: freezePolicy(policy),
    ...extrasOf(revision),
    totals: freezeFigures(totals),
  });
}
