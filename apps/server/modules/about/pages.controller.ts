import { Controller, Get, Redirect, Res } from '@nestjs/common';
import { ApiExcludeController } from '@nestjs/swagger';
import type {} from '@fastify/static';
import type { FastifyReply } from 'fastify';
import { webFolder } from '../../platform/http/equip.js';
import { OpenToAll } from '../../platform/http/route.js';

/** The built pages under their own addresses; what is on them comes from the API. */
@ApiExcludeController()
@Controller()
export class PagesController {
  @Get()
  @OpenToAll()
  @Redirect('/sign-in', 302)
  home(): void {
    // the decorator answers
  }

  @Get('sign-in')
  @OpenToAll()
  signIn(@Res() reply: FastifyReply): void {
    page(reply, 'sign-in.html');
  }

  @Get('board')
  @OpenToAll()
  board(@Res() reply: FastifyReply): void {
    page(reply, 'board.html');
  }
}

function page(reply: FastifyReply, file: string): void {
  void reply.header('cache-control', 'no-cache').sendFile(file, webFolder());
}
