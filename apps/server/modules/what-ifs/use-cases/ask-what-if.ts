import { fail, ok, type Result } from '#libs/kernel';
import { changeFloorBy, type Alternative, type WhatIfFloor } from '#libs/what-if';
import type { Tx } from '../../../platform/database/tx.js';
import { alternativesAsked } from '../data/changes-asked.js';
import { floorOfShop } from '../data/floor-of-shop.js';
import { enqueueWhatIf } from '../data/what-if-task.js';
import type { WhatIfQuestion } from '../data/what-if-question.js';
import { WhatIfRow } from '../data/what-if.entity.js';
import { yearOfShop } from '../data/year-of-shop.js';
import type { AskWhatIfRequest } from '../dto/what-if.request.js';
import type { WhatIfResponse } from '../dto/what-if.response.js';
import { history } from '../queries/what-if-history.query.js';
import { floorFacts } from '../queries/what-if-shop.query.js';
import { whatIf } from '../queries/what-ifs.query.js';

const USUAL_WEEKS = 26;
const USUAL_YEARS = 5;
/** Weeks that are replayed for one question, over all years and alternatives; a week takes a tenth of a second and more. */
const MOST_WEEKS = 2000;

/** Stores the question with the shop as it is now, and queues it. */
export async function askWhatIf(tx: Tx, request: AskWhatIfRequest): Promise<Result<WhatIfResponse>> {
  const { alternatives, weeks = USUAL_WEEKS, years = USUAL_YEARS } = request;
  if (weeks * years * (1 + alternatives.length) > MOST_WEEKS)
    return fail('request-invalid', 'That would take too long.', {
      fields: [
        {
          pointer: '/weeks',
          detail: `Ask for fewer weeks, years or alternatives: together at most ${MOST_WEEKS} weeks are replayed.`,
        },
      ],
    });
  const facts = await floorFacts(tx);
  const asked = alternativesAsked(alternatives, facts);
  if (!asked.ok) return asked;
  const { floor, assumed } = floorOfShop(facts);
  const possible = allPossible(floor, asked.value);
  if (!possible.ok) return possible;
  const described = yearOfShop(facts, floor, await history(tx, facts.timeZone), weeks);
  if (!described.ok) return described;
  const { year, basis } = described.value;
  const question: WhatIfQuestion = {
    ...{ floor, year, alternatives: asked.value },
    seeds: Array.from({ length: years }, (_, k) => k + 1),
    basis: { ...basis, assumed: [...basis.assumed, ...assumed] },
  };
  const id = tx.newId();
  await tx.em.insert(WhatIfRow, { shopId: tx.shopId, id, askedBy: tx.staffId, askedAt: tx.now, question });
  enqueueWhatIf(tx, id);
  tx.announce('what-if', { whatIfId: id });
  return whatIf(tx, id);
}

/** Each alternative by itself can be, but two of its changes may not go together. */
function allPossible(floor: WhatIfFloor, alternatives: readonly Alternative[]): Result<void> {
  for (const [k, { changes }] of alternatives.entries()) {
    const changed = changeFloorBy(floor, changes);
    if (!changed.ok)
      return fail('request-invalid', 'These do not go together.', {
        fields: [{ pointer: `/alternatives/${k}/changes`, detail: changed.fault.detail }],
      });
  }
  return ok(undefined);
}
