import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Acts, Answers, Creates, PageOf, type Page } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { AskForPlanRequest, PlanRunsQuery } from './dto/plan-run.request.js';
import { PlanRunResponse, PlanRunSummaryResponse } from './dto/plan-run.response.js';
import { Proposals } from './proposals.js';
import { planRun, planRuns } from './queries/plan-runs.query.js';
import { askForPlan } from './use-cases/ask-for-plan.js';
import { rejectProposal } from './use-cases/reject-proposal.js';

@ApiTags('Planning')
@Controller('plan/runs')
export class PlanRunsController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly proposals: Proposals,
  ) {}

  @Post()
  @May('plan.decide')
  @Creates(PlanRunResponse)
  @ApiOperation({
    summary: 'Ask for a look at the plan',
    description:
      'Answers at once with a run that has no outcome yet; the live event `plan` with its `planRunId` tells when it has. With `improve` what is found is always a proposal; else it is applied or proposed as the shop has it.',
  })
  ask(@Ctx() ctx: RequestContext, @Body() body: AskForPlanRequest): Promise<PlanRunResponse> {
    return this.uow.run(ctx, (tx) => askForPlan(tx, body));
  }

  @Get()
  @May('board.read')
  @ApiOkResponse({ type: PageOf(PlanRunSummaryResponse) })
  @ApiOperation({ summary: 'Runs of the plan, the newest first' })
  list(@Ctx() ctx: RequestContext, @Query() query: PlanRunsQuery): Promise<Page<PlanRunSummaryResponse>> {
    return this.uow.read(ctx, (tx) => planRuns(tx, query));
  }

  @Get(':id')
  @May('board.read')
  @Answers(PlanRunResponse)
  @ApiOperation({ summary: 'A run with what is different in it, for each work order, and why' })
  read(@Ctx() ctx: RequestContext, @Id() id: string): Promise<PlanRunResponse> {
    return this.uow.read(ctx, (tx) => planRun(tx, id));
  }

  @Post(':id/accept')
  @May('plan.decide')
  @Acts(PlanRunResponse)
  @ApiOperation({
    summary: 'Accept a proposal: all of it, or nothing where it no longer fits',
    description:
      'It is held against the floor as it is now. Where it no longer fits the answer is `plan-outdated`, and another run is asked for.',
  })
  accept(@Ctx() ctx: RequestContext, @Id() id: string): Promise<PlanRunResponse> {
    return this.proposals.accept(ctx, id);
  }

  @Post(':id/reject')
  @May('plan.decide')
  @Acts(PlanRunResponse)
  @ApiOperation({ summary: 'Reject a proposal; the plan stays as it is until something else happens' })
  reject(@Ctx() ctx: RequestContext, @Id() id: string): Promise<PlanRunResponse> {
    return this.uow.run(ctx, (tx) => rejectProposal(tx, id));
  }
}
