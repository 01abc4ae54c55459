import { Module } from '@nestjs/common';
import { IntakeModule } from '../intake/index.js';
import { ChemicalsController } from './chemicals.controller.js';
import { ChemicalsRepository } from './chemicals.repository.js';
import { CoverRepository } from './cover.repository.js';
import { CoverList } from './cover-list.js';
import { RecomputeCover } from './recompute-cover.js';

@Module({ imports: [IntakeModule], controllers: [ChemicalsController], providers: [ChemicalsRepository, CoverList, CoverRepository, RecomputeCover] })
export class ChemicalsModule {}
