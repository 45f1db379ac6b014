import { Controller, Get, Post, Query, Req, Res } from '@nestjs/common';
import { ApiBody, ApiConsumes, ApiOkResponse, ApiOperation, ApiProduces, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { PhotoIntake, PhotoStore, sendPhoto, withFile } from '../../platform/files/index.js';
import { Creates } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { PHOTO_HOW, PHOTO_UPLOAD, PhotoQuery, PhotoResponse } from './dto/photo.js';
import { openPhoto, photoTargetExists, type PhotoTarget } from './queries/photos.query.js';
import { addPhoto } from './use-cases/add-photo.js';

@ApiTags('Photos')
@Controller()
export class PhotosController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly intake: PhotoIntake,
    private readonly store: PhotoStore,
  ) {}

  @Post('observations/:id/photos')
  @May('photo.add')
  @ApiConsumes('multipart/form-data')
  @ApiBody(PHOTO_UPLOAD)
  @Creates(PhotoResponse)
  @ApiOperation({ summary: 'Put a photo to an observation', description: PHOTO_HOW })
  ofObservation(
    @Ctx() ctx: RequestContext,
    @Id() observationId: string,
    @Req() request: FastifyRequest,
  ): Promise<PhotoResponse> {
    return this.add(ctx, { observationId }, request);
  }

  @Post('findings/:id/photos')
  @May('photo.add')
  @ApiConsumes('multipart/form-data')
  @ApiBody(PHOTO_UPLOAD)
  @Creates(PhotoResponse)
  @ApiOperation({ summary: 'Put a photo to a finding', description: PHOTO_HOW })
  ofFinding(
    @Ctx() ctx: RequestContext,
    @Id() findingId: string,
    @Req() request: FastifyRequest,
  ): Promise<PhotoResponse> {
    return this.add(ctx, { findingId }, request);
  }

  @Get('photos/:id')
  @May('repair-order.read')
  @ApiProduces('image/webp')
  @ApiOkResponse({ schema: { type: 'string', format: 'binary' } })
  @ApiOperation({ summary: 'The picture itself' })
  async show(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Query() { size }: PhotoQuery,
    @Req() request: FastifyRequest,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    const photo = await this.uow.read(ctx, (tx) => openPhoto(tx, id));
    await sendPhoto(this.store, photo, size ?? 'full', request, reply);
  }

  private async add(
    ctx: RequestContext,
    target: Exclude<PhotoTarget, { contingencyId: string }>,
    request: FastifyRequest,
  ): Promise<PhotoResponse> {
    await this.uow.read(ctx, (tx) => photoTargetExists(tx, target));
    const photo = await this.intake.take(ctx.shopId, request);
    return this.uow.run(withFile(ctx, photo.sha256), (tx) => addPhoto(tx, target, photo));
  }
}
