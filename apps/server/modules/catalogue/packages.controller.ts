import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion, PageOf, type Page } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddPackageRequest, ChangePackageRequest, PackageResponse, PackagesQuery } from './dto/package.js';
import { packagesPage } from './queries/packages.query.js';
import { addPackage } from './use-cases/add-package.js';
import { changePackage } from './use-cases/change-package.js';

@ApiTags('Catalogue')
@Controller('packages')
export class PackagesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('catalogue.read')
  @Answers(PageOf(PackageResponse))
  @ApiOperation({ summary: 'The packages in use, by name' })
  list(@Ctx() ctx: RequestContext, @Query() query: PackagesQuery): Promise<Page<PackageResponse>> {
    return this.uow.read(ctx, (tx) => packagesPage(tx, query));
  }

  @Post()
  @May('catalogue.write')
  @Creates(PackageResponse)
  @ApiOperation({ summary: 'Add a package: a book time for operations that are done together' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddPackageRequest): Promise<PackageResponse> {
    return this.uow.run(ctx, (tx) => addPackage(tx, body));
  }

  @Patch(':id')
  @May('catalogue.write')
  @NeedsVersion()
  @Answers(PackageResponse)
  @ApiOperation({ summary: 'Change a package, for drafts and what is sent from now on' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangePackageRequest,
  ): Promise<PackageResponse> {
    return this.uow.run(ctx, (tx) => changePackage(tx, id, version, body));
  }
}
