import { Injectable } from '@nestjs/common';
import type { Reader } from '../app/index.js';

/** Undoes a part change that turned out not to be so. */
@Injectable()
export class TakeBackFitting {
  /** `at`: the moment of the change. Answers what stands in the way, null where it was undone. */
  async within(tx: Reader, positionId: string, at: Date): Promise<string | null> {
    const fittings = await tx.fitting.findMany({ where: { positionId }, orderBy: { fittedAt: 'asc' }, include: { position: { select: { name: true } } } });
    const later = fittings.find(({ fittedAt }) => fittedAt > at);
    if (later !== undefined) {
      return `${later.position.name} got another part on ${later.fittedAt.toISOString().slice(0, 10)}, after the change that is to be undone: correct its parts by hand`;
    }
    const fitted = fittings.find(({ fittedAt }) => fittedAt.getTime() === at.getTime());
    if (fitted !== undefined) await tx.fitting.delete({ where: { id: fitted.id } });
    const before = fittings.find(({ removedAt }) => removedAt?.getTime() === at.getTime());
    if (before !== undefined) await tx.fitting.update({ where: { id: before.id }, data: { removedAt: null, removedBy: null, removalReason: null } });
    return null;
  }
}
