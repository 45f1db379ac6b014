import { Injectable } from '@nestjs/common';
import { systemContext, type RequestContext } from '../../../platform/context.js';
import { UnitOfWork } from '../../../platform/database/unit-of-work.js';
import { ProblemError } from '../../../platform/http/problem-error.js';
import type { TabletPeopleResponse } from '../dto/device.response.js';
import type { PinSignInRequest } from '../dto/session.request.js';
import { deviceByToken } from '../queries/devices.query.js';
import { pinCandidate } from '../queries/pin-candidate.query.js';
import { tabletPeople } from '../queries/tablet-people.query.js';
import { countWrongAttempt } from '../use-cases/count-wrong-attempt.js';
import { openSession, type OpenedSession } from '../use-cases/open-session.js';
import { Clock } from '../../../platform/clock.js';
import { isLocked } from './attempts.js';
import { KeyedQueue } from './keyed-queue.js';
import { shopOfToken, tokenHash } from './opaque-token.js';
import { matchesSecret } from './secret-hash.js';
import { deviceUnknown, lockedFault, pinWrong } from './sign-in-faults.js';

interface Tablet {
  readonly ctx: RequestContext;
  readonly deviceId: string;
}

/** What an enrolled tablet may do before anybody has signed in on it: show the names, take a PIN. */
@Injectable()
export class Tablets {
  private readonly queue = new KeyedQueue();

  constructor(
    private readonly uow: UnitOfWork,
    private readonly clock: Clock,
  ) {}

  async people(deviceToken: string | undefined): Promise<TabletPeopleResponse> {
    const { ctx } = await this.tablet(deviceToken);
    return this.uow.read(ctx, tabletPeople);
  }

  async signIn(
    request: Pick<PinSignInRequest, 'staffId' | 'pin'>,
    deviceToken: string | undefined,
  ): Promise<OpenedSession> {
    const tablet = await this.tablet(deviceToken);
    const staffId = request.staffId.toLowerCase();
    return this.queue.run(staffId, () => this.attempt(tablet, staffId, request.pin));
  }

  private async attempt({ ctx, deviceId }: Tablet, staffId: string, pin: string): Promise<OpenedSession> {
    const person = await this.uow.read(ctx, (tx) => pinCandidate(tx, staffId));
    const at = this.clock.wall();
    if (person?.pinLockedUntil && isLocked({ lockedUntil: person.pinLockedUntil }, at))
      throw new ProblemError(lockedFault(person.pinLockedUntil, at).fault);
    const isRight = await matchesSecret(person?.pinHash ?? null, pin);
    if (!person || !isRight) {
      await this.uow.run(ctx, (tx) => countWrongAttempt(tx, staffId, 'pin'));
      throw new ProblemError(pinWrong().fault);
    }
    return this.uow.run(ctx, (tx) =>
      openSession(tx, { staffId, how: 'pin', deviceId, hash: person.pinHash }),
    );
  }

  private async tablet(token: string | undefined): Promise<Tablet> {
    const shopId = shopOfToken(token);
    if (token === undefined || shopId === undefined) throw new ProblemError(deviceUnknown().fault);
    const ctx = systemContext(shopId, 'tablet');
    const deviceId = await this.uow.read(ctx, (tx) => deviceByToken(tx, tokenHash(token)));
    if (deviceId === undefined) throw new ProblemError(deviceUnknown().fault);
    return { ctx, deviceId };
  }
}
