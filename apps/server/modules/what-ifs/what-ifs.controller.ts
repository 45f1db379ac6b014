import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, PageOf, type Page } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { AskWhatIfRequest, WhatIfsQuery } from './dto/what-if.request.js';
import { WhatIfResponse, WhatIfSummaryResponse } from './dto/what-if.response.js';
import { whatIf, whatIfs } from './queries/what-ifs.query.js';
import { askWhatIf } from './use-cases/ask-what-if.js';

@ApiTags('What if')
@Controller('what-ifs')
export class WhatIfsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Post()
  @May('what-if.ask')
  @Creates(WhatIfResponse)
  @ApiOperation({
    summary: 'Ask what would be different with one more lift, technician, open day or tool',
    description:
      'Answers at once; years like the last 90 days are replayed in the background, which takes seconds to minutes. The live event `what-if` with its `whatIfId` tells when there is an answer.',
  })
  ask(@Ctx() ctx: RequestContext, @Body() body: AskWhatIfRequest): Promise<WhatIfResponse> {
    return this.uow.run(ctx, (tx) => askWhatIf(tx, body));
  }

  @Get()
  @May('what-if.ask')
  @ApiOkResponse({ type: PageOf(WhatIfSummaryResponse) })
  @ApiOperation({ summary: 'What was asked, the newest first' })
  list(@Ctx() ctx: RequestContext, @Query() query: WhatIfsQuery): Promise<Page<WhatIfSummaryResponse>> {
    return this.uow.read(ctx, (tx) => whatIfs(tx, query));
  }

  @Get(':id')
  @May('what-if.ask')
  @Answers(WhatIfResponse)
  @ApiOperation({ summary: 'A question with its answer, as soon as there is one' })
  read(@Ctx() ctx: RequestContext, @Id() id: string): Promise<WhatIfResponse> {
    return this.uow.read(ctx, (tx) => whatIf(tx, id));
  }
}
