import { Module } from '@nestjs/common';
import { JobsModule } from '../jobs/index.js';
import { OutlookModule } from '../outlook/index.js';
import { StoreModule } from '../store/index.js';
import { UpkeepModule } from '../upkeep/index.js';
import { AnswersController } from './answers/answers.controller.js';
import { Answers } from './answers/answers.js';
import { FollowJobs } from './follow-jobs.js';
import { JudgeVisit } from './judge-visit.js';
import { PlanVisit } from './plan-visit.js';
import { AcceptPlan } from './planning/accept-plan.js';
import { WayInController } from './planning/access/way-in.controller.js';
import { FindPlan } from './planning/find-plan.js';
import { PlanFactsReader } from './planning/plan-facts-reader.js';
import { PlanList } from './planning/plan-list.js';
import { PlanSearch } from './planning/plan-search.js';
import { PlanWriter } from './planning/plan-writer.repository.js';
import { PlanningController } from './planning/planning.controller.js';
import { PlanningData } from './planning/planning-data.js';
import { PlansController } from './planning/plans.controller.js';
import { Plans } from './planning/plans.js';
import { RatesController } from './planning/rates/rates.controller.js';
import { Rates } from './planning/rates/rates.js';
import { Replan } from './planning/replan.js';
import { WhatIf } from './planning/what-if.js';
import { PromiseVisit } from './promise-visit.js';
import { ReserveKit } from './reserve-kit.js';
import { SheetsController } from './sheets.controller.js';
import { Sheets } from './sheets.js';
import { ShiftVisit } from './shift-visit.js';
import { travelProvider } from './travel/make-travel-provider.js';
import { TravelController } from './travel/travel.controller.js';
import { Travel } from './travel/travel.js';
import { TravelFit } from './travel/travel-fit.js';
import { TravelSettings } from './travel/travel-settings.js';
import { VisitKits } from './visit-kits.js';
import { VisitList } from './visit-list.js';
import { VisitsController } from './visits.controller.js';
import { WorkOfVisit } from './work-of-visit.js';

@Module({
  imports: [OutlookModule, UpkeepModule, StoreModule, JobsModule],
  controllers: [VisitsController, SheetsController, PlanningController, PlansController, TravelController, RatesController, WayInController, AnswersController],
  providers: [
    AcceptPlan,
    Answers,
    FindPlan,
    FollowJobs,
    JudgeVisit,
    PlanFactsReader,
    PlanList,
    PlanningData,
    Plans,
    PlanSearch,
    PlanVisit,
    PlanWriter,
    PromiseVisit,
    Rates,
    Replan,
    ReserveKit,
    Sheets,
    ShiftVisit,
    Travel,
    TravelFit,
    travelProvider,
    TravelSettings,
    VisitKits,
    VisitList,
    WhatIf,
    WorkOfVisit,
  ],
})
export class VisitsModule {}
