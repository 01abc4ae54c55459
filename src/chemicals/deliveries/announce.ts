import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, type KeyedRequest, KeyedWork, NotFound, takeEdited, viewOf } from '../../app/index.js';
import { SkidAccess } from '../../intake/index.js';
import { type AnnouncementDto, AnnouncementView } from './deliveries.dto.js';
import { awaitedOf, type ClientDelivery, DeliveriesRepository } from './deliveries.repository.js';

/** A client says what it has ordered for a tank that it fills itself, or calls it off. */
@Injectable()
export class Announce {
  constructor(
    private readonly access: SkidAccess,
    private readonly repository: DeliveriesRepository,
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly clock: Clock,
  ) {}

  async for(caller: Caller, tankId: string, key: KeyedRequest, { volumeL, expectedOn, note }: AnnouncementDto): Promise<AnnouncementView> {
    await this.access.toWriteTank(caller, tankId);
    const tank = await this.repository.tank(caller, tankId);
    if (tank === null || tank.endedOn !== null) throw new NotFound('tank', tankId);
    if (tank.suppliedBy !== 'client')
      throw new Conflict(`${tank.name} is filled by the service department: only tanks that the client fills take announcements`);
    if (volumeL > tank.capacityL) throw faultIn('volumeL', `${volumeL} L is more than the tank holds (${tank.capacityL} L)`);
    return this.work.run(key, async (tx) => {
      await tx.$queryRaw`SELECT 1 FROM tank WHERE id = ${tankId}::uuid FOR UPDATE`;
      const before = await awaitedOf(tx, tankId);
      if (before !== null) throw new Conflict(`A delivery of ${before.volumeL} L is awaited already: confirm it, or call it off first`);
      const row = await tx.clientDelivery.create({
        data: {
          clientId: tank.clientId,
          tankId,
          volumeL,
          expectedOn: new Date(`${expectedOn}T00:00:00Z`),
          note,
          announcedAt: this.clock.now(),
          announcedBy: caller.name,
        },
      });
      return announcementView(row);
    });
  }

  async callOff(caller: Caller, id: string, version: number): Promise<AnnouncementView> {
    const seen = await this.repository.announcement(caller, id);
    if (seen === null) throw new NotFound('announcement', id);
    await this.access.toWriteTank(caller, seen.tankId);
    if (seen.state !== 'awaited') throw new Conflict(`The delivery is ${seen.state}`);
    return this.database.write(async (tx) => {
      const data = { state: 'called off', settledAt: this.clock.now(), settledBy: caller.name, version: { increment: 1 } };
      const { count } = await tx.clientDelivery.updateMany({ where: { id, version, state: 'awaited' }, data });
      takeEdited(count === 1 ? [id] : [], 'announcement');
      return announcementView(await tx.clientDelivery.findUniqueOrThrow({ where: { id } }));
    });
  }
}

function announcementView(row: ClientDelivery): AnnouncementView {
  const { id, tankId, volumeL, expectedOn, note, announcedAt, announcedBy, state, version } = row;
  return viewOf(AnnouncementView, { id, tankId, volumeL, expectedOn: expectedOn.toISOString().slice(0, 10), note, announcedAt, announcedBy, state, version });
}
