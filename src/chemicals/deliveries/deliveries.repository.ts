import { Injectable } from '@nestjs/common';
import { type Caller, Database, type Reader } from '../../app/index.js';
import type { ClientDelivery } from '../../generated/prisma/client.js';

export type { ClientDelivery };

export interface TankToFill {
  readonly id: string;
  readonly name: string;
  readonly clientId: string;
  readonly siteId: string;
  readonly chemical: string;
  readonly capacityL: number;
  readonly strengthGL: number | null;
  readonly suppliedBy: string;
  readonly endedOn: Date | null;
}

const FILLED = { id: true, name: true, clientId: true, chemical: true, capacityL: true, strengthGL: true, suppliedBy: true, endedOn: true } as const;

@Injectable()
export class DeliveriesRepository {
  constructor(private readonly database: Database) {}

  async tank(caller: Caller, id: string): Promise<TankToFill | null> {
    const found = await this.database.readFor(caller, (reader) =>
      reader.tank.findUnique({ where: { id }, select: { ...FILLED, skid: { select: { siteId: true } } } }),
    );
    if (found === null) return null;
    const { skid, ...tank } = found;
    return { ...tank, siteId: skid.siteId };
  }

  announcement(caller: Caller, id: string): Promise<ClientDelivery | null> {
    return this.database.readFor(caller, (reader) => reader.clientDelivery.findUnique({ where: { id } }));
  }

  /** Answers false where it was settled meanwhile, in another way. */
  async settle(id: string, by: string, now: Date): Promise<boolean> {
    const { prisma } = this.database;
    const { count } = await prisma.clientDelivery.updateMany({
      where: { id, state: 'awaited' },
      data: { state: 'in the tank', settledAt: now, settledBy: by, version: { increment: 1 } },
    });
    return count === 1 || (await prisma.clientDelivery.count({ where: { id, state: 'in the tank' } })) === 1;
  }
}

/** How many deliveries of a tank are awaited: one at a time is enough to know what comes. */
export const awaitedOf = (tx: Reader, tankId: string) => tx.clientDelivery.findFirst({ where: { tankId, state: 'awaited' } });
