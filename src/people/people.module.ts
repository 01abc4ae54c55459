import { Module } from '@nestjs/common';
import { CallerSource } from '../app/index.js';
import { FirstManager } from './first-manager.js';
import { Invitations } from './invitations.js';
import { InvitationsRepository } from './invitations.repository.js';
import { PeopleCallerSource } from './people-caller-source.js';
import { SessionController } from './session.controller.js';
import { SessionsRepository } from './sessions.repository.js';
import { SignIn } from './sign-in.js';

@Module({
  controllers: [SessionController],
  providers: [SignIn, Invitations, FirstManager, SessionsRepository, InvitationsRepository, { provide: CallerSource, useClass: PeopleCallerSource }],
  exports: [CallerSource, FirstManager],
})
export class PeopleModule {}
