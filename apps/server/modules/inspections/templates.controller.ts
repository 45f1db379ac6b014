import { Body, Controller, Get, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { SaveTemplateRequest, TemplatesQuery } from './dto/template.request.js';
import { TemplateResponse, TemplatesResponse } from './dto/template.response.js';
import { allTemplates, templateById } from './queries/templates.query.js';
import { saveTemplate } from './use-cases/save-template.js';

@ApiTags('Inspections')
@Controller('inspection-templates')
export class TemplatesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('catalogue.read')
  @Answers(TemplatesResponse)
  @ApiOperation({ summary: 'The inspection templates in use' })
  list(@Ctx() ctx: RequestContext, @Query() query: TemplatesQuery): Promise<TemplatesResponse> {
    return this.uow.read(ctx, (tx) => allTemplates(tx, query));
  }

  @Get(':id')
  @May('catalogue.read')
  @Answers(TemplateResponse)
  @ApiOperation({ summary: 'One edition of a template: stations in walking order with their checkpoints' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<TemplateResponse> {
    return this.uow.read(ctx, (tx) => templateById(tx, id));
  }

  @Post()
  @May('template.write')
  @Creates(TemplateResponse)
  @ApiOperation({ summary: 'Save a template, or the next edition of one' })
  save(@Ctx() ctx: RequestContext, @Body() body: SaveTemplateRequest): Promise<TemplateResponse> {
    return this.uow.run(ctx, (tx) => saveTemplate(tx, body));
  }
}
