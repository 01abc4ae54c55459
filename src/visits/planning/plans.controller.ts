import { Body, Controller, HttpCode, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow } from '../../app/index.js';
import { PlanDto, type PlanView } from './plans.dto.js';
import { Plans } from './plans.js';

@ApiTags('planning')
@Controller('plans')
@Allow('manager')
export class PlansController {
  constructor(private readonly plans: Plans) {}

  /** Searches tours for the jobs that wait, the dues and the visits that are agreed on, which keep their day, time and people. Nothing is stored */
  @Post()
  @HttpCode(200)
  make(@Body() input: PlanDto): Promise<PlanView> {
    return this.plans.make(input);
  }
}
