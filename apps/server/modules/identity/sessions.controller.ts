import { Body, Controller, Delete, Get, Headers, HttpCode, Post, Req, Res } from '@nestjs/common';
import { ApiCreatedResponse, ApiHeader, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Empties } from '../../platform/http/answers.js';
import { Ctx, May, OpenToAll } from '../../platform/http/route.js';
import { PinSignInRequest, RefreshSessionRequest, SignInRequest } from './dto/session.request.js';
import { CurrentSessionResponse, OpenedSessionResponse } from './dto/session.response.js';
import { currentSession } from './queries/current-session.query.js';
import { PasswordSignIn } from './sign-in/password-sign-in.js';
import { PerMinute } from './sign-in/rate-limit.js';
import { Sessions } from './sign-in/sessions.js';
import { Tablets } from './sign-in/tablets.js';

/** None of these POSTs keeps its answer for an Idempotency-Key: it would be a way to read tokens out of the database. */
@ApiTags('Sessions')
@Controller('sessions')
export class SessionsController {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly passwords: PasswordSignIn,
    private readonly tablets: Tablets,
    private readonly sessions: Sessions,
  ) {}

  @Post()
  @OpenToAll()
  @PerMinute(60)
  @HttpCode(201)
  @ApiCreatedResponse({ type: OpenedSessionResponse })
  @ApiOperation({ summary: 'Sign in with e-mail address and password' })
  async signIn(
    @Body() body: SignInRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<OpenedSessionResponse> {
    return this.sessions.give(reply, await this.passwords.signIn(body), body.delivery);
  }

  @Post('pin')
  @OpenToAll()
  @PerMinute(120)
  @HttpCode(201)
  @ApiCreatedResponse({ type: OpenedSessionResponse })
  @ApiHeader({ name: 'X-Device-Token', required: true })
  @ApiOperation({ summary: 'Sign in with a PIN on an enrolled tablet' })
  async signInWithPin(
    @Body() body: PinSignInRequest,
    @Headers('x-device-token') deviceToken: string | undefined,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<OpenedSessionResponse> {
    return this.sessions.give(reply, await this.tablets.signIn(body, deviceToken), body.delivery);
  }

  @Post('refresh')
  @OpenToAll()
  @PerMinute(300)
  @HttpCode(201)
  @ApiCreatedResponse({ type: OpenedSessionResponse })
  @ApiOperation({ summary: 'Trade the refresh token for a new access token and a new refresh token' })
  refresh(
    @Body() body: RefreshSessionRequest,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<OpenedSessionResponse> {
    return this.sessions.refresh(request, reply, body);
  }

  @Get('current')
  @May('session.own')
  @Answers(CurrentSessionResponse)
  @ApiOperation({ summary: 'Who is signed in, where, until when, and what they may do' })
  current(@Ctx() ctx: RequestContext): Promise<CurrentSessionResponse> {
    return this.uow.read(ctx, (tx) => currentSession(tx, tx.sessionId));
  }

  @Delete('current')
  @OpenToAll()
  @Empties()
  @ApiOperation({ summary: 'Sign out: by the access token, or by the refresh cookie when that has run out' })
  end(@Req() request: FastifyRequest, @Res({ passthrough: true }) reply: FastifyReply): Promise<void> {
    return this.sessions.end(request, reply);
  }
}
