import { Controller, Get, OnModuleInit, Redirect, Res } from '@nestjs/common';
import { HttpAdapterHost } from '@nestjs/core';
import type { FastifyAdapter } from '@nestjs/platform-fastify';
import { ApiExcludeController } from '@nestjs/swagger';
import type { FastifyReply } from 'fastify';
import { OpenToAll } from '../../platform/http/route.js';
import { sendPage } from './send-page.js';

/** The built pages under their own addresses; what is on them comes from the API. */
@ApiExcludeController()
@Controller()
export class PagesController implements OnModuleInit {
  constructor(private readonly host: HttpAdapterHost<FastifyAdapter>) {}

  /**
   * `/board` is a page and `board` a resource of the API. Leaving a path out of the API's prefix leaves out both, so the
   * pages of whoever is signed in are given to the web server itself.
   */
  onModuleInit(): void {
    for (const page of ['board', 'plan', 'calendar', 'estimate', 'when', 'what-if'])
      this.host.httpAdapter
        .getInstance()
        .get(`/${page}`, (_request, reply) => sendPage(reply, `${page}.html`));
  }

  @Get()
  @OpenToAll()
  @Redirect('/sign-in', 302)
  home(): void {
    // the decorator answers
  }

  @Get('sign-in')
  @OpenToAll()
  signIn(@Res() reply: FastifyReply): void {
    void sendPage(reply, 'sign-in.html');
  }
}
