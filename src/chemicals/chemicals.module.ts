import { Module } from '@nestjs/common';
import { IntakeModule } from '../intake/index.js';
import { ProposalsModule } from '../store/index.js';
import { CalculatorsController } from './calculators/calculators.controller.js';
import { ChemicalNeeds } from './chemical-needs.js';
import { ChemicalsController } from './chemicals.controller.js';
import { ChemicalsRepository } from './chemicals.repository.js';
import { CoverRepository } from './cover.repository.js';
import { CoverList } from './cover-list.js';
import { Announce } from './deliveries/announce.js';
import { Deliver } from './deliveries/deliver.js';
import { DeliveriesRepository } from './deliveries/deliveries.repository.js';
import { RecomputeCover } from './recompute-cover.js';
import { Assays } from './records/assays.js';
import { TankUsers } from './records/tank-users.js';
import { TankBooks } from './tank-books.js';
import { TankSituations } from './tank-situations.js';

@Module({
  imports: [IntakeModule, ProposalsModule],
  controllers: [CalculatorsController, ChemicalsController],
  providers: [
    Announce,
    Assays,
    ChemicalNeeds,
    ChemicalsRepository,
    CoverList,
    CoverRepository,
    Deliver,
    DeliveriesRepository,
    RecomputeCover,
    TankBooks,
    TankSituations,
    TankUsers,
  ],
  exports: [ChemicalNeeds, CoverList],
})
export class ChemicalsModule {}
