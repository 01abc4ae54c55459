import { Module } from '@nestjs/common';
import { CallerSource } from '../app/index.js';
import { FirstManager } from './first-manager.js';
import { GatewayKeysController } from './gateway-keys.controller.js';
import { GatewayKeys } from './gateway-keys.js';
import { GatewayKeysRepository } from './gateway-keys.repository.js';
import { Invitations } from './invitations.js';
import { InvitationsRepository } from './invitations.repository.js';
import { PeopleController } from './people.controller.js';
import { People } from './people.js';
import { PeopleRepository } from './people.repository.js';
import { PeopleCallerSource } from './people-caller-source.js';
import { SessionController } from './session.controller.js';
import { SessionsRepository } from './sessions.repository.js';
import { SignIn } from './sign-in.js';
import { StaffController } from './staff.controller.js';

@Module({
  controllers: [SessionController, PeopleController, StaffController, GatewayKeysController],
  providers: [
    SignIn,
    Invitations,
    FirstManager,
    People,
    GatewayKeys,
    SessionsRepository,
    InvitationsRepository,
    PeopleRepository,
    GatewayKeysRepository,
    { provide: CallerSource, useClass: PeopleCallerSource },
  ],
  exports: [CallerSource, FirstManager],
})
export class PeopleModule {}
