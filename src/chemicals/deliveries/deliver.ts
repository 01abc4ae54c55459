import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, faultIn, InvalidRequest, type KeyedRequest, NotFound } from '../../app/index.js';
import { EnterEvents, type LoadReportView, SkidAccess, toReportView } from '../../intake/index.js';
import { chemicalClass } from '../../shared/incompatibility.js';
import { deliveryFaults } from '../core/delivery-faults.js';
import { statedStrengthGL } from '../core/stated-strength.js';
import type { DeliveryDto } from './deliveries.dto.js';
import { DeliveriesRepository, type TankToFill } from './deliveries.repository.js';

/** What came into a tank: checked against what it holds, then entered as an event of its skid; an announced delivery is confirmed by it. */
@Injectable()
export class Deliver {
  constructor(
    private readonly access: SkidAccess,
    private readonly events: EnterEvents,
    private readonly repository: DeliveriesRepository,
    private readonly clock: Clock,
  ) {}

  async into(caller: Caller, tankId: string, input: DeliveryDto, idempotency: KeyedRequest): Promise<LoadReportView> {
    const skid = await this.access.toWriteTank(caller, tankId);
    const tank = await this.repository.tank(caller, tankId);
    if (tank === null) throw new NotFound('tank', tankId);
    const { at, by = caller.name, replaceDiffering, volumeL, lot, product, expiresOn, fromTankId, announcementId } = input;
    const strengthGL = strengthOf(tank, input);
    const { chemical: chemicalOfTank, capacityL, strengthGL: usualGL } = tank;
    const faults = deliveryFaults({
      chemicalOfTank,
      capacityL,
      usualGL,
      product: product ?? null,
      volumeL,
      strengthGL,
      strengthConfirmed: input.strengthConfirmed ?? false,
    });
    if (faults.length > 0)
      throw new InvalidRequest(
        'The delivery does not fit the tank',
        faults.map(({ field, message }) => ({ pointer: `#/${field === 'strengthGL' && input.strengthGL === undefined ? 'strengthValue' : field}`, message })),
      );
    if (fromTankId !== undefined) await this.checkSource(caller, tank, fromTankId);
    if (announcementId !== undefined) await this.checkAnnouncement(caller, tankId, announcementId);
    const { strengthValue = null, strengthBasis = null } = input;
    const densityKgL = input.densityKgL ?? null;
    const label = { product: product ?? null, strengthValue, strengthBasis, densityKgL, expiresOn: expiresOn ?? null, fromTankId: fromTankId ?? null };
    const event = { kind: 'delivery', tankId, volumeL, strengthGL, lot: lot ?? null, label } as const;
    const report = toReportView(await this.events.enter({ skid, caller, at, by, event, replaceDiffering, idempotency }));
    if (announcementId !== undefined && !(await this.repository.settle(announcementId, caller.name, this.clock.now())))
      throw new Conflict('The announced delivery was called off meanwhile. What came into the tank is entered');
    return report;
  }

  private async checkSource(caller: Caller, tank: TankToFill, fromTankId: string): Promise<void> {
    const from = await this.repository.tank(caller, fromTankId);
    if (from === null || from.siteId !== tank.siteId || from.id === tank.id) throw faultIn('fromTankId', `${fromTankId} is no other tank of the same site`);
    if (chemicalClass(from.chemical) !== chemicalClass(tank.chemical) || (chemicalClass(tank.chemical) === 'unknown' && from.chemical !== tank.chemical))
      throw faultIn('fromTankId', `${from.name} holds ${from.chemical}, and this tank ${tank.chemical}`);
  }

  private async checkAnnouncement(caller: Caller, tankId: string, id: string): Promise<void> {
    const announced = await this.repository.announcement(caller, id);
    if (announced === null || announced.tankId !== tankId) throw faultIn('announcementId', `${id} is no announced delivery of this tank`);
    if (announced.state === 'called off') throw faultIn('announcementId', 'the announced delivery was called off: enter the delivery without it');
  }
}

function strengthOf({ chemical }: TankToFill, { strengthGL, strengthValue, strengthBasis, densityKgL }: DeliveryDto): number | null {
  if (strengthValue === undefined) return strengthGL ?? null;
  if (strengthGL !== undefined) throw faultIn('strengthGL', 'give the strength once: in g/L, or as the label states it');
  if (strengthBasis === undefined) throw faultIn('strengthBasis', 'say what the strength on the label goes by');
  const read = statedStrengthGL(chemical, { value: strengthValue, basis: strengthBasis, densityKgL: densityKgL ?? null });
  if (read.kind === 'fault') throw faultIn(read.field === 'basis' ? 'strengthBasis' : read.field, read.message);
  return read.strengthGL;
}
