import { setTimeout as sleep } from 'node:timers/promises';
import { Injectable } from '@nestjs/common';
import { fail } from '#libs/kernel';
import { Clock } from '../../../platform/clock.js';
import { systemContext } from '../../../platform/context.js';
import { UnitOfWork } from '../../../platform/database/unit-of-work.js';
import { ProblemError } from '../../../platform/http/problem-error.js';
import type { SignInRequest } from '../dto/session.request.js';
import { signInCandidates, type Candidate } from '../queries/sign-in-candidates.query.js';
import { countWrongAttempt } from '../use-cases/count-wrong-attempt.js';
import { openSession, type OpenedSession } from '../use-cases/open-session.js';
import { isLocked } from './attempts.js';
import { KeyedQueue } from './keyed-queue.js';
import { matchesSecret } from './secret-hash.js';
import { lockedFault, passwordWrong } from './sign-in-faults.js';
import { StrangerLocks } from './stranger-locks.js';

/** No refusal is told sooner, so that the time of the extra write for a known address cannot be read off it. */
const REFUSAL_MS = 200;

/**
 * E-mail address and password. The shop is not known before the password is: an address may be known in several, and
 * then the password decides. Reading, comparing (slow, on purpose, and outside any transaction) and recording are
 * three steps; the queue makes them one for each address.
 */
@Injectable()
export class PasswordSignIn {
  private readonly queue = new KeyedQueue();
  private readonly strangers = new StrangerLocks();

  constructor(
    private readonly uow: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  async signIn(request: Pick<SignInRequest, 'email' | 'password' | 'shop'>): Promise<OpenedSession> {
    const email = request.email.toLowerCase();
    const began = performance.now();
    try {
      return await this.queue.run(email, () => this.attempt(email, request.password, request.shop));
    } catch (error) {
      await sleep(Math.max(0, REFUSAL_MS - (performance.now() - began)));
      throw error;
    }
  }

  private async attempt(email: string, password: string, slug: string | undefined): Promise<OpenedSession> {
    const known = await this.uow.bySignInAddress(email, (em) => signInCandidates(em, email, slug));
    if (known.length === 0) return this.refuseStranger(`${email} ${slug ?? ''}`, password);
    const at = this.clock.wall();
    const open = known.filter((candidate) => !isLocked(candidate, at));
    if (open.length === 0) throw new ProblemError(lockedFault(earliest(known, at), at).fault);

    const right: Candidate[] = [];
    for (const candidate of open)
      if (await matchesSecret(candidate.passwordHash, password)) right.push(candidate);
    if (right.length > 1) throw new ProblemError(shopNeeded(right).fault);
    const [person] = right;
    if (!person) {
      for (const { shopId, staffId } of open)
        await this.uow.run(systemContext(shopId, 'sign-in'), (tx) =>
          countWrongAttempt(tx, staffId, 'password'),
        );
      throw new ProblemError(passwordWrong().fault);
    }
    return this.uow.run(systemContext(person.shopId, 'sign-in'), (tx) =>
      openSession(tx, {
        staffId: person.staffId,
        how: 'password',
        deviceId: null,
        hash: person.passwordHash,
      }),
    );
  }

  private async refuseStranger(key: string, password: string): Promise<never> {
    const at = this.clock.wall();
    const until = this.strangers.lockedUntil(key, at);
    if (until) throw new ProblemError(lockedFault(until, at).fault);
    await matchesSecret(null, password);
    this.strangers.countWrong(key, at);
    throw new ProblemError(passwordWrong().fault);
  }
}

function earliest(locked: readonly Candidate[], otherwise: Date): Date {
  const times = locked.flatMap(({ lockedUntil }) => (lockedUntil === null ? [] : [lockedUntil.getTime()]));
  return times.length === 0 ? otherwise : new Date(Math.min(...times));
}

function shopNeeded(right: readonly Candidate[]): ReturnType<typeof fail> {
  const shops = right.map((candidate) => candidate.slug).sort();
  const detail = `This address and password are known in ${shops.length} shops. Say which one: ${shops.join(', ')}.`;
  return fail('shop-needed', detail, { facts: { shops }, fields: [{ pointer: '/shop', detail }] });
}
