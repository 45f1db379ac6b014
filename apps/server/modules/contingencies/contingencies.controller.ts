import { Body, Controller, Get, Post, Req } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyRequest } from 'fastify';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { PhotoIntake, withFile } from '../../platform/files/index.js';
import { Acts, Answers, Creates } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { PHOTO_HOW, PHOTO_UPLOAD, PhotoResponse, photoTargetExists } from '../inspections/index.js';
import { TriggerContingencyRequest } from './dto/trigger.request.js';
import { TriggeredContingencyResponse, WorkContingenciesResponse } from './dto/trigger.response.js';
import { contingenciesOfWork } from './queries/work-contingencies.query.js';
import { addProof } from './use-cases/add-proof.js';
import { triggerContingency } from './use-cases/trigger-contingency.js';

/** What becomes of a contingency that was offered: told when it happens, with proof, and charged then. */
@ApiTags('Contingencies')
@Controller()
export class ContingenciesController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly intake: PhotoIntake,
  ) {}

  @Get('work-orders/:id/contingencies')
  @May('repair-order.read')
  @Answers(WorkContingenciesResponse)
  @ApiOperation({ summary: 'What may happen on a work order, and what the owner said to it' })
  ofWork(@Ctx() ctx: RequestContext, @Id() id: string): Promise<WorkContingenciesResponse> {
    return this.uow.read(ctx, (tx) => contingenciesOfWork(tx, id));
  }

  @Post('contingencies/:id/photos')
  @May('photo.add')
  @ApiConsumes('multipart/form-data')
  @ApiBody(PHOTO_UPLOAD)
  @Creates(PhotoResponse)
  @ApiOperation({
    summary: 'Put a photo to a contingency: the proof that it happened',
    description: PHOTO_HOW,
  })
  async photo(
    @Ctx() ctx: RequestContext,
    @Id() contingencyId: string,
    @Req() request: FastifyRequest,
  ): Promise<PhotoResponse> {
    await this.uow.read(ctx, (tx) => photoTargetExists(tx, { contingencyId }));
    const photo = await this.intake.take(ctx.shopId, request);
    return this.uow.run(withFile(ctx, photo.sha256), (tx) => addProof(tx, contingencyId, photo));
  }

  @Post('contingencies/:id/trigger')
  @May('contingency.trigger')
  @Acts(TriggeredContingencyResponse)
  @ApiOperation({
    summary: 'It has happened: it is charged, once and never above the agreed cap',
    description:
      'By the technician who holds the work order, the front desk or a manager, with the reason and a photo of it. Only what the owner has agreed to in advance; anything else goes into a further revision. Local law decides what an agreement in advance must look like; this is not legal advice.',
  })
  trigger(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: TriggerContingencyRequest,
  ): Promise<TriggeredContingencyResponse> {
    return this.uow.run(ctx, (tx) => triggerContingency(tx, id, body));
  }
}
