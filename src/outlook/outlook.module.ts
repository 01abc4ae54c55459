import { Module } from '@nestjs/common';
import { OutlookController } from './outlook.controller.js';
import { OutlookRepository } from './outlook.repository.js';
import { RecomputeOutlook } from './recompute-outlook.js';
import { TrendRepository } from './trend.repository.js';
import { Trends } from './trends.js';

@Module({ controllers: [OutlookController], providers: [OutlookRepository, RecomputeOutlook, TrendRepository, Trends], exports: [Trends] })
export class OutlookModule {}
