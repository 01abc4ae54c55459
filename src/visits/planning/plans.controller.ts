import { Body, Controller, Get, HttpCode, Param, ParseUUIDPipe, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Allow, type Caller, CurrentCaller, type KeyedRequest, PageQuery, RequestKey, TakesRequestKey } from '../../app/index.js';
import { AcceptPlan } from './accept-plan.js';
import { CallerGone } from './caller-gone.js';
import { PlanList } from './plan-list.js';
import type { PlansPageView, PlanView } from './plan-views.dto.js';
import { AcceptPlanDto, PlanDto, ReplanDto } from './plans.dto.js';
import { Plans } from './plans.js';
import { Replan } from './replan.js';
import { WhatIfDto, type WhatIfView } from './what-if.dto.js';
import { WhatIf } from './what-if.js';

@ApiTags('planning')
@Controller('plans')
@Allow('manager')
export class PlansController {
  constructor(
    private readonly plans: Plans,
    private readonly list: PlanList,
    private readonly accepting: AcceptPlan,
    private readonly replanning: Replan,
    private readonly comparing: WhatIf,
  ) {}

  /** Plans that were made, the latest first */
  @Get()
  page(@Query() query: PageQuery): Promise<PlansPageView> {
    return this.list.page(query);
  }

  @Get(':id')
  read(@Param('id', ParseUUIDPipe) id: string): Promise<PlanView> {
    return this.list.read(id);
  }

  /** Searches tours for the jobs that wait, the dues and the visits that are there, and keeps the plan. What was promised keeps its day, time and people; no visit is made or shifted. Whoever hangs up before the plan is there stops the search */
  @Post()
  @TakesRequestKey()
  make(@CurrentCaller() caller: Caller, @RequestKey() key: KeyedRequest, @Body() input: PlanDto, @CallerGone() gone: AbortSignal): Promise<PlanView> {
    return this.plans.make(caller, key, input, gone);
  }

  /** What a plan would cost more or less with one more technician, with everything later or some work not before a day; nothing is kept. Whoever hangs up stops the search */
  @Post('what-if')
  @HttpCode(200)
  whatIf(@Body() input: WhatIfDto, @CallerGone() gone: AbortSignal): Promise<WhatIfView> {
    return this.comparing.compare(input, gone);
  }

  /** Plans anew from a plan, with what has become known since: who is away, what takes longer, whose parts are late, what is urgent. What was promised stays; the answer says what changed and why */
  @Post(':id/replan')
  @TakesRequestKey()
  replan(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() input: ReplanDto,
  ): Promise<PlanView> {
    return this.replanning.replan(caller, key, id, input);
  }

  /** Makes and shifts the visits of these lines, all or none; a line that was accepted already stays as it is */
  @Post(':id/accept')
  @HttpCode(200)
  @TakesRequestKey()
  accept(
    @CurrentCaller() caller: Caller,
    @RequestKey() key: KeyedRequest,
    @Param('id', ParseUUIDPipe) id: string,
    @Body() { lineIds }: AcceptPlanDto,
  ): Promise<PlanView> {
    return this.accepting.accept(caller, key, id, lineIds ?? null);
  }
}
