import { fail, type Failed } from '#libs/kernel';
import type { FoundLink } from '../queries/link.query.js';

/** What an owner hears who comes too late. Whom to call is told: the link proves that they were written to. */
export function closedLink({ state, shopName, shopPhone }: FoundLink): Failed {
  const facts = { shopName, shopPhone };
  const call =
    shopPhone === null ? `Please ask ${shopName} for a new one.` : `Please call ${shopName}, ${shopPhone}.`;
  return state === 'revoked'
    ? fail('link-revoked', `The shop has withdrawn this link. ${call}`, { facts })
    : fail('link-expired', `This link has expired. ${call}`, { facts });
}
