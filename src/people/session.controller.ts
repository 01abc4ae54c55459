import type {} from '@fastify/cookie';
import { Body, Controller, Delete, Get, HttpCode, Param, Post, Req, Res } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { AllowAnyone, AllowSignedIn, type Caller, CurrentCaller, SESSION_COOKIE, viewOf } from '../app/index.js';
import { FirstManager } from './first-manager.js';
import { Invitations } from './invitations.js';
import { FirstManagerDto, InvitationAnswerDto, OpenInvitationView, type SessionView, SignInDto } from './session.dto.js';
import { SignIn, type StartedSession } from './sign-in.js';

@ApiTags('session')
@Controller()
export class SessionController {
  constructor(
    private readonly signIn: SignIn,
    private readonly invitations: Invitations,
    private readonly firstManager: FirstManager,
  ) {}

  /** Signs in: the session is in the cookie that the answer sets */
  @Post('session')
  @AllowAnyone()
  @HttpCode(200)
  async start(@Body() input: SignInDto, @Req() request: FastifyRequest, @Res({ passthrough: true }) reply: FastifyReply): Promise<SessionView> {
    return giveCookie(request, reply, await this.signIn.withPassword(input, request.ip));
  }

  /** Who is signed in */
  @Get('session')
  @AllowSignedIn()
  current(@CurrentCaller() caller: Caller): Promise<SessionView> {
    return this.signIn.person(caller.id);
  }

  @Delete('session')
  @AllowAnyone()
  @HttpCode(204)
  async end(@Req() request: FastifyRequest, @Res({ passthrough: true }) reply: FastifyReply): Promise<void> {
    await this.signIn.end(request.cookies[SESSION_COOKIE]);
    void reply.clearCookie(SESSION_COOKIE, { path: '/' });
  }

  /** For whom a link of an invitation is, and until when it is good */
  @Get('invitations/:token')
  @AllowAnyone()
  async lookAtInvitation(@Param('token') token: string): Promise<OpenInvitationView> {
    return viewOf(OpenInvitationView, await this.invitations.look(token));
  }

  /** Sets the password of the person who was invited, and signs in */
  @Post('invitations/:token')
  @AllowAnyone()
  @HttpCode(200)
  async acceptInvitation(
    @Param('token') token: string,
    @Body() input: InvitationAnswerDto,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<SessionView> {
    return giveCookie(request, reply, await this.signIn.start(await this.invitations.accept(token, input)));
  }

  /** Makes the first account of an empty service, and signs in */
  @Post('first-manager')
  @AllowAnyone()
  @HttpCode(200)
  async makeFirstManager(
    @Body() input: FirstManagerDto,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<SessionView> {
    return giveCookie(request, reply, await this.signIn.start(await this.firstManager.create(input)));
  }
}

function giveCookie(request: FastifyRequest, reply: FastifyReply, { token, expiresAt, person }: StartedSession): SessionView {
  void reply.setCookie(SESSION_COOKIE, token, { path: '/', httpOnly: true, sameSite: 'lax', secure: request.protocol === 'https', expires: expiresAt });
  return person;
}
