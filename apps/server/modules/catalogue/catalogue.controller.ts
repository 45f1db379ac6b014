import { Body, Controller, Get, HttpCode, Post } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { CAUTIONS, CAUTIONS_DEFER } from '#libs/cautions';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers } from '../../platform/http/answers.js';
import { Ctx, May } from '../../platform/http/route.js';
import { CautionsResponse } from './dto/caution.response.js';
import { LabourPreviewRequest, LabourPreviewResponse } from './dto/labour-preview.js';
import { previewLabour } from './queries/labour-preview.query.js';

@ApiTags('Catalogue')
@Controller()
export class CatalogueController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get('cautions')
  @May('catalogue.read')
  @Answers(CautionsResponse)
  @ApiOperation({ summary: 'The cautions that operations put on a ticket, with their sources' })
  cautions(): CautionsResponse {
    return { defersTo: CAUTIONS_DEFER, items: CAUTIONS.map((caution) => ({ ...caution })) };
  }

  @Post('labour-previews')
  @May('catalogue.read')
  @HttpCode(200)
  @ApiOkResponse({ type: LabourPreviewResponse })
  @ApiOperation({
    summary: 'Book hours of operations at positions: alone, together, and the share of each',
    description: 'Stores nothing. A step that several operations share at one place counts once.',
  })
  preview(@Ctx() ctx: RequestContext, @Body() body: LabourPreviewRequest): Promise<LabourPreviewResponse> {
    return this.uow.read(ctx, (tx) => previewLabour(tx, body));
  }
}
