import { Controller, Get, Param, Post, Query, Req, Res } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Id, OpenToAll } from '../../platform/http/route.js';
import { LinkRate } from './link-rate.js';
import { OwnerPages } from './owner-pages.js';
import type { Page } from './page/frame.js';

/** The owner's pages, outside of the API: HTML without scripts at the address that the owner was sent. */
@ApiExcludeController()
@Controller('o')
export class OwnerPagesController {
  constructor(private readonly pages: OwnerPages) {}

  @Get(':token')
  @OpenToAll()
  @LinkRate()
  async show(
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    send(reply, await this.pages.show({ token, request, reply }));
  }

  @Post(':token')
  @OpenToAll()
  @LinkRate()
  async submit(
    @Param('token') token: string,
    @Req() request: FastifyRequest,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    send(reply, await this.pages.submit({ token, request, reply }));
  }

  @Get(':token/photos/:photoId')
  @OpenToAll()
  @LinkRate()
  async photo(
    @Param('token') token: string,
    @Id('photoId') photoId: string,
    @Query('size') size: string | undefined,
    @Req() request: FastifyRequest,
    @Res() reply: FastifyReply,
  ): Promise<void> {
    await this.pages.photo({ token, request, reply }, photoId, size === 'small' ? 'small' : 'full');
  }
}

function send(reply: FastifyReply, page: Page): void {
  void reply
    .code(page.status)
    .header('content-type', 'text/html; charset=utf-8')
    .header('content-security-policy', page.policy)
    .header('cache-control', 'no-store')
    .header('x-robots-tag', 'noindex, nofollow')
    .send(page.body);
}
