import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion, PageOf, type Page } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddOperationRequest, ChangeOperationRequest, OperationsQuery } from './dto/operation.request.js';
import { OperationResponse } from './dto/operation.response.js';
import { operationById, operationsPage } from './queries/operations.query.js';
import { addOperation } from './use-cases/add-operation.js';
import { changeOperation } from './use-cases/change-operation.js';

@ApiTags('Catalogue')
@Controller('operations')
export class OperationsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('catalogue.read')
  @Answers(PageOf(OperationResponse))
  @ApiOperation({ summary: 'The operations in use, by code' })
  list(@Ctx() ctx: RequestContext, @Query() query: OperationsQuery): Promise<Page<OperationResponse>> {
    return this.uow.read(ctx, (tx) => operationsPage(tx, query));
  }

  @Get(':id')
  @May('catalogue.read')
  @Answers(OperationResponse)
  @ApiOperation({ summary: 'One operation with its steps' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<OperationResponse> {
    return this.uow.read(ctx, (tx) => operationById(tx, id));
  }

  @Post()
  @May('catalogue.write')
  @Creates(OperationResponse)
  @ApiOperation({ summary: 'Add an operation, made of steps' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddOperationRequest): Promise<OperationResponse> {
    return this.uow.run(ctx, (tx) => addOperation(tx, body));
  }

  @Patch(':id')
  @May('catalogue.write')
  @NeedsVersion()
  @Answers(OperationResponse)
  @ApiOperation({ summary: 'Change an operation, for lines written from now on' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeOperationRequest,
  ): Promise<OperationResponse> {
    return this.uow.run(ctx, (tx) => changeOperation(tx, id, version, body));
  }
}
