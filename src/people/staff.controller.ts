import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, viewOf } from '../app/index.js';
import { StaffMemberView } from './people.dto.js';
import { PeopleRepository } from './people.repository.js';

@ApiTags('people')
@Controller('staff')
export class StaffController {
  constructor(private readonly people: PeopleRepository) {}

  /** Names of the department's people, for lists to choose from; their accounts are the managers' */
  @Get()
  @Allow('manager', 'storekeeper', 'technician')
  async list(): Promise<StaffMemberView[]> {
    return (await this.people.staff()).map(({ id, name, role }) => viewOf(StaffMemberView, { id, name, role }));
  }
}
