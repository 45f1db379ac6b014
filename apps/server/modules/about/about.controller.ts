import { Controller, Get, Inject } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import { ok } from '#libs/kernel';
import type { Config } from '../../platform/config.js';
import { systemContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers } from '../../platform/http/answers.js';
import { Flag, ListOf, Nested, OneOf, Text, Whole } from '../../platform/http/fields.js';
import { OpenToAll } from '../../platform/http/route.js';
import { QueueRunner } from '../../platform/queue/index.js';
import { CONFIG } from '../../platform/tokens.js';
import { DEMO_ACCOUNTS, DEMO_SHOP_ID } from './demo-accounts.js';

class DemoAccountResponse {
  @Text() name: string;
  @Text() role: string;
  @Text() email: string;
  @Text() password: string;
}

class DemoResponse {
  @ListOf(() => DemoAccountResponse) accounts: DemoAccountResponse[];
}

class AboutResponse {
  @Text() name: string;
  @Text() version: string;
  @Flag() production: boolean;
  @Whole({ min: 1, description: 'Shop seconds that pass in one second; above 1 only in a demonstration.' })
  clockRate: number;
  @Nested(() => DemoResponse, { nullable: true }) demo: DemoResponse | null;
}

class HealthResponse {
  @OneOf(['ok']) status: 'ok';
  @Whole({
    nullable: true,
    description:
      'Background jobs that failed as often as they may, of all shops, at the last look; the log says which and why. Null before the first look. They are kept for 30 days.',
  })
  givenUpJobs: number | null;
}

@ApiTags('About')
@Controller()
export class AboutController {
  constructor(
    @Inject(CONFIG) private readonly config: Config,
    private readonly uow: UnitOfWork,
    private readonly jobs: QueueRunner,
  ) {}

  @Get('about')
  @OpenToAll()
  @Answers(AboutResponse)
  @ApiOperation({ summary: 'What answers here' })
  async about(): Promise<AboutResponse> {
    const demo = !this.config.production && (await this.demoShopExists());
    return {
      name: 'Bayledger',
      version: '0.1.0',
      production: this.config.production,
      clockRate: this.config.clockRate,
      demo: demo ? { accounts: [...DEMO_ACCOUNTS] } : null,
    };
  }

  @Get('health')
  @OpenToAll()
  @Answers(HealthResponse)
  @ApiOperation({ summary: 'Answers when the server and its database do' })
  async health(): Promise<HealthResponse> {
    await this.uow.read(systemContext(DEMO_SHOP_ID, 'health'), async (tx) => ok(await tx.one('select 1')));
    return { status: 'ok', givenUpJobs: this.jobs.givenUp.count };
  }

  private demoShopExists(): Promise<boolean> {
    return this.uow.read(systemContext(DEMO_SHOP_ID, 'about'), async (tx) =>
      ok((await tx.one('select 1 from shops where shop_id = $1 and is_demo', [tx.shopId])) !== undefined),
    );
  }
}
