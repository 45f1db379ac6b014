import { Body, Controller, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { Answers } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { ChoicesRequest, ChoicesResponse } from './dto/choices.js';
import { Choices } from './solving/choices.js';

@ApiTags('Estimate')
@Controller()
export class ChoicesController {
  constructor(private readonly choices: Choices) {}

  @Post('repair-orders/:id/choices')
  @May('estimate.write')
  @Answers(ChoicesResponse)
  @ApiOperation({
    summary:
      'The best sets of lines for a budget, and the ladder of all budgets; computes and stores nothing',
  })
  find(@Ctx() ctx: RequestContext, @Id() id: string, @Body() body: ChoicesRequest): Promise<ChoicesResponse> {
    return this.choices.of(ctx, id, body);
  }
}
