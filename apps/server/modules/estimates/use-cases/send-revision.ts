import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import { ok, type Result } from '#libs/kernel';
import { freezeRevision, type FrozenRevision } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { benefitWeights } from '../../identity/index.js';
import { agreedCharges, withContingencies } from '../data/contingency.mapping.js';
import { choiceOfLine } from '../data/line-choice.js';
import { revisionLine } from '../data/line.mapping.js';
import { pricingFault } from '../data/pricing-fault.js';
import type { LinkResponse } from '../dto/link.response.js';
import type { RevisionResponse } from '../dto/revision.response.js';
import type { LinkTokens } from '../link-tokens.js';
import { aboutRevision } from '../queries/about-revision.query.js';
import { revisionOf } from '../queries/estimate.query.js';
import { contingenciesOf } from '../queries/contingencies.query.js';
import { draftTerms } from '../queries/draft-terms.query.js';
import { linesOf } from '../queries/lines.query.js';
import { givenFor } from '../queries/offer.query.js';
import { pricingPolicy } from '../queries/pricing-policy.query.js';
import { COMMON_SPREAD, rangeFactsNow } from '../queries/range.query.js';
import { standingDecisions } from '../queries/standing-decisions.query.js';
import { vehicleOnEstimate } from '../queries/vehicle-on-estimate.query.js';
import { draftById, type Draft } from './draft-revision.js';
import { makeLink, validUntil } from './make-link.js';

export interface SentRevision {
  readonly revision: RevisionResponse;
  readonly link: LinkResponse;
}

/** SHA-256 of the canonical form (RFC 8785) of what is shown: any reader can compute it from the document again. */
export function hashOfShown(document: FrozenRevision): string {
  const text = canonicalize(document);
  if (text === undefined) throw new Error('a frozen revision is a JSON document');
  return createHash('sha256').update(text).digest('hex');
}

async function freeze(tx: Tx, draft: Draft, until: Date): Promise<Result<FrozenRevision>> {
  const { revisionId, repairOrderId } = draft;
  const row = await tx.one<{ number: number }>(
    'select number from revisions where shop_id = $1 and id = $2',
    [tx.shopId, revisionId],
  );
  const contingencies = await contingenciesOf(tx, { repairOrderId });
  const weights = await benefitWeights(tx);
  const facts = await linesOf(tx, { revisionId });
  const { orderDiscount, packages } = await draftTerms(tx, revisionId, facts);
  const lines = facts.map((line) => ({
    ...revisionLine(line),
    choice: choiceOfLine(line, weights),
  }));
  const { unseen, commonSpreadPpm } = await rangeFactsNow(tx, repairOrderId);
  const vehicle = await vehicleOnEstimate(tx, repairOrderId);
  const about = await aboutRevision(tx, { repairOrderId, number: row?.number ?? 0, validUntil: until });
  const frozen = freezeRevision({
    about: { ...about, [COMMON_SPREAD]: commonSpreadPpm },
    lines: withContingencies(lines, contingencies),
    given: givenFor(
      revisionId,
      await standingDecisions(tx, repairOrderId),
      new Set(),
      agreedCharges(contingencies),
    ),
    policy: await pricingPolicy(tx),
    unseen,
    ...(vehicle.valueCents === null ? {} : { vehicleValueCents: vehicle.valueCents }),
    orderDiscount,
    packages,
  });
  return frozen.ok ? frozen : pricingFault(frozen.fault);
}

/**
 * Sends a revision: from now on neither its lines nor what is shown of them change, and the owner has an address to
 * decide at. Work that turns up later goes into a further revision.
 */
export async function sendRevision(
  tx: Tx,
  tokens: LinkTokens,
  revisionId: string,
  version: number | '*',
  validHours: number | undefined,
): Promise<Result<SentRevision>> {
  const draft = await draftById(tx, revisionId, version);
  if (!draft.ok) return draft;
  const until = await validUntil(tx, validHours);
  const shown = await freeze(tx, draft.value, until);
  if (!shown.ok) return shown;
  const shownSha256 = hashOfShown(shown.value);
  const totalCents = shown.value.totals.totalCents;
  await tx.rows(
    `update revisions set sent_at = $3, sent_by = $4, valid_until = $5, shown = $6, shown_sha256 = $7, total_cents = $8,
        version = version + 1 where shop_id = $1 and id = $2 returning version`,
    [tx.shopId, revisionId, tx.now, tx.staffId, until, JSON.stringify(shown.value), shownSha256, totalCents],
  );
  const link = await makeLink(tx, tokens, revisionId, validHours);
  if (!link.ok) return link;
  const { repairOrderId } = draft.value;
  await tx.audit('revision.send', 'revision', revisionId, { repairOrderId, shownSha256, totalCents });
  tx.announce('revision', { revisionId, repairOrderId });
  const revision = await revisionOf(tx, revisionId);
  return revision.ok ? ok({ revision: revision.value, link: link.value }) : revision;
}
