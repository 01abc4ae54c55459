import { Injectable } from '@nestjs/common';
import type { CycleFact } from '../core/cycle-fact.js';
import { type CycleRow, CYCLES, DERIVED_CYCLES, type RecordTable } from './record-tables.js';
import { RecordStore } from './record-store.repository.js';
import type { Transaction } from './transactions.repository.js';

const DAY_MS = 86_400_000;

/** Cycles that were made from samples: conclusions that are thrown away and made again, and that give way to reported ones. */
@Injectable()
export class DerivedCycles {
  constructor(private readonly records: RecordStore) {}
}
