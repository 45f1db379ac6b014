import { Injectable } from '@nestjs/common';
import type { PlanContributor } from './shop-plan.js';

/** Modules that come later bring work of their own into the plan; each registers once, when it starts. */
@Injectable()
export class PlanContributors {
  private readonly registered: PlanContributor[] = [];

  register(contributor: PlanContributor): void {
    this.registered.push(contributor);
  }

  get all(): readonly PlanContributor[] {
    return this.registered;
  }
}
