import { Module } from '@nestjs/common';
import { IntakeFacts } from './repositories/facts.repository.js';
import { RecordStore } from './repositories/record-store.repository.js';
import { Transactions } from './repositories/transactions.repository.js';

@Module({ providers: [IntakeFacts, RecordStore, Transactions], exports: [IntakeFacts] })
export class IntakeModule {}
