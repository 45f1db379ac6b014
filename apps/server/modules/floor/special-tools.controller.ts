import { Body, Controller, Get, Patch, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion } from '../../platform/http/answers.js';
import { ListOf } from '../../platform/http/fields.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddSpecialToolRequest, ChangeSpecialToolRequest } from './dto/special-tool.request.js';
import { SpecialToolResponse } from './dto/special-tool.response.js';
import { allSpecialTools } from './queries/special-tools.query.js';
import { addSpecialTool } from './use-cases/add-special-tool.js';
import { changeSpecialTool } from './use-cases/change-special-tool.js';

class SpecialToolsResponse {
  @ListOf(() => SpecialToolResponse) items: SpecialToolResponse[];
}

@ApiTags('Floor')
@Controller('special-tools')
export class SpecialToolsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('board.read')
  @Answers(SpecialToolsResponse)
  @ApiOperation({ summary: 'Tools of which the shop has few, by name' })
  list(@Ctx() ctx: RequestContext): Promise<SpecialToolsResponse> {
    return this.uow.read(ctx, allSpecialTools);
  }

  @Post()
  @May('floor.configure')
  @Creates(SpecialToolResponse)
  @ApiOperation({ summary: 'Add a special tool' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddSpecialToolRequest): Promise<SpecialToolResponse> {
    return this.uow.run(ctx, (tx) => addSpecialTool(tx, body));
  }

  @Patch(':id')
  @May('floor.configure')
  @NeedsVersion()
  @Answers(SpecialToolResponse)
  @ApiOperation({ summary: 'Rename a special tool, or say how many there are' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeSpecialToolRequest,
  ): Promise<SpecialToolResponse> {
    return this.uow.run(ctx, (tx) => changeSpecialTool(tx, id, version, body));
  }
}
