import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import {
  Answers,
  Creates,
  NeedsVersion,
  PageOf,
  WholeInVersion,
  type Page,
} from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddCustomerRequest, ChangeCustomerRequest, FindQuery } from './dto/customer.request.js';
import { CustomerResponse } from './dto/customer.response.js';
import { customer, findCustomers } from './queries/customers.query.js';
import { addCustomer } from './use-cases/add-customer.js';
import { changeCustomer } from './use-cases/change-customer.js';

@ApiTags('Customers and vehicles')
@Controller('customers')
export class CustomersController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('customer.read')
  @Answers(PageOf(CustomerResponse))
  @ApiOperation({ summary: 'Customers: the newest first, or the best match for `q` first' })
  find(@Ctx() ctx: RequestContext, @Query() query: FindQuery): Promise<Page<CustomerResponse>> {
    return this.uow.read(ctx, (tx) => findCustomers(tx, query));
  }

  @Post()
  @May('customer.write')
  @Creates(CustomerResponse)
  @ApiOperation({ summary: 'Add a customer' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddCustomerRequest): Promise<CustomerResponse> {
    return this.uow.run(ctx, (tx) => addCustomer(tx, body));
  }

  @Get(':id')
  @May('customer.read')
  @WholeInVersion()
  @Answers(CustomerResponse)
  @ApiOperation({ summary: 'One customer' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<CustomerResponse> {
    return this.uow.read(ctx, (tx) => customer(tx, id));
  }

  @Patch(':id')
  @May('customer.write')
  @NeedsVersion()
  @Answers(CustomerResponse)
  @ApiOperation({ summary: 'Change a customer' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeCustomerRequest,
  ): Promise<CustomerResponse> {
    return this.uow.run(ctx, (tx) => changeCustomer(tx, id, version, body));
  }
}
