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
      return `${later.position.name} got another part on ${dayOf(later.fittedAt)}, after the change that is to be undone: correct its parts by hand`;
    }
    const fitted = fittings.find(({ fittedAt }) => fittedAt.getTime() === at.getTime());
    if (fitted?.removedAt != null) {
      return `the part of ${fitted.position.name} was removed again on ${dayOf(fitted.removedAt)}, after the change that is to be undone: correct its parts by hand`;
    }
    const before = fittings.find(({ removedAt }) => removedAt?.getTime() === at.getTime());
    const elsewhere = before && (await fittedElsewhere(tx, before.partId, positionId, at));
    if (elsewhere != null) return `the part that was in ${before?.position.name} before is in ${elsewhere} by now: remove it there first`;
    if (fitted !== undefined) {
      await tx.fitting.delete({ where: { id: fitted.id } });
      // Nobody knows a part that was never fitted, unless the ledger names it.
      await tx.part.deleteMany({ where: { id: fitted.partId, fittings: { none: {} }, moves: { none: {} } } });
    }
    if (before !== undefined) await tx.fitting.update({ where: { id: before.id }, data: { removedAt: null, removedBy: null, removalReason: null } });
    return null;
  }
}

const dayOf = (at: Date): string => at.toISOString().slice(0, 10);

/** Where the part was at the moment or came to later. */
async function fittedElsewhere(tx: Reader, partId: string, positionId: string, at: Date): Promise<string | undefined> {
  const fitting = await tx.fitting.findFirst({
    where: { partId, positionId: { not: positionId }, OR: [{ removedAt: null }, { removedAt: { gt: at } }] },
    select: { position: { select: { name: true } } },
  });
  return fitting?.position.name;
}
