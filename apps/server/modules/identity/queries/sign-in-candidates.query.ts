import type { EntityManager } from 'typeorm';
import { ShopRow } from '../data/shop.entity.js';
import { StaffMemberRow } from '../data/staff-member.entity.js';

/** Somebody who may be meant by an address, in one of the shops where it is known. */
export interface Candidate {
  readonly shopId: string;
  readonly slug: string;
  readonly staffId: string;
  readonly passwordHash: string;
  readonly lockedUntil: Date | null;
}

/** Before a shop is known: the tenancy policies show the rows of exactly the address that was given, and no other. */
export async function signInCandidates(
  em: EntityManager,
  email: string,
  slug: string | undefined,
): Promise<Candidate[]> {
  const people = await em.findBy(StaffMemberRow, { email, isActive: true });
  const shops = await em.findBy(ShopRow, slug === undefined ? {} : { slug });
  return people.flatMap((person) => {
    const shop = shops.find((s) => s.shopId === person.shopId);
    if (!shop || person.passwordHash === null) return [];
    return [
      {
        shopId: shop.shopId,
        slug: shop.slug,
        staffId: person.id,
        passwordHash: person.passwordHash,
        lockedUntil: person.lockedUntil,
      },
    ];
  });
}
