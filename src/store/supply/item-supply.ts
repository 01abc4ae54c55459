import { Injectable } from '@nestjs/common';
import { Database, faultIn, type Reader, viewOf } from '../../app/index.js';
import { chemicalClass, INCOMPATIBILITIES } from '../../shared/incompatibility.js';
import { bandProblem, type HazardBand, hazardsAt } from '../core/supply/hazard-bands.js';
import { usualHazards } from '../core/supply/hazard-library.js';
import type { TableRow } from '../csv/table-file.js';
import { itemTable } from './item-import.repository.js';
import { type Criticality, HazardView, type ItemSupplyDto, ItemSupplyView, RelatedItemView } from './item-supply.dto.js';
import { type ItemWithSupply, itemWithSupply, knownItems, replaceSupply, successors } from './item-supply.repository.js';

/** What the store must know of an item to buy and to keep it. */
@Injectable()
export class ItemSupplies {
  constructor(private readonly database: Database) {}

  async read(itemId: string): Promise<ItemSupplyView> {
    return toView(await itemWithSupply(this.database.prisma, itemId));
  }

  table(): Promise<TableRow[]> {
    return itemTable(this.database.prisma);
  }

  replace(itemId: string, version: number, input: ItemSupplyDto): Promise<ItemSupplyView> {
    return this.database.write(async (tx) => {
      await itemWithSupply(tx, itemId);
      await checkSupply(tx, itemId, input);
      const { alternatives, hazards, contentUnit = null, criticality, ...rest } = input;
      const { shelfLifeDays = null, reviewDays = 0, supersededById = null, strengthPercent = null, contentAmount = null } = rest;
      await replaceSupply(tx, itemId, version, {
        columns: { criticality, shelfLifeDays, reviewDays, supersededById, strengthPercent, contentAmount, contentUcum: contentUnit },
        alternatives: alternatives.map(({ itemId: alternativeId, note }) => ({ alternativeId, note })),
        hazards: hazards.map(({ belowPercent = null, unNumber = null, packingGroup = null, ...hazard }) => ({
          ...hazard,
          belowPercent,
          unNumber,
          packingGroup,
        })),
      });
      return toView(await itemWithSupply(tx, itemId));
    });
  }
}

async function checkSupply(
  tx: Reader,
  itemId: string,
  { supersededById = null, alternatives, hazards, contentAmount = null, contentUnit = null }: ItemSupplyDto,
): Promise<void> {
  const named = [...(supersededById === null ? [] : [supersededById]), ...alternatives.map((alternative) => alternative.itemId)];
  const known = await knownItems(tx, named);
  if (supersededById !== null) {
    if (!known.has(supersededById)) throw faultIn('supersededById', 'must be an item');
    const chain = supersededById === itemId ? [{ id: itemId }] : await successors(tx, supersededById);
    if (chain.some(({ id }) => id === itemId)) throw faultIn('supersededById', 'is itself superseded by this item: one of the two must stay');
  }
  for (const [at, { itemId: other }] of alternatives.entries()) {
    if (!known.has(other) || other === itemId) throw faultIn(`alternatives/${at}/itemId`, 'must be another item');
    if (alternatives.findIndex((one) => one.itemId === other) < at) throw faultIn(`alternatives/${at}/itemId`, 'stands there twice: leave one out');
  }
  const overlap = bandProblem(
    hazards.map(({ fromPercent, belowPercent = null }) => ({
      fromPercent: Number(fromPercent),
      belowPercent: belowPercent === null ? null : Number(belowPercent),
    })),
  );
  if (overlap !== null) throw faultIn('hazards', overlap);
  if ((contentAmount === null) !== (contentUnit === null))
    throw faultIn(contentAmount === null ? 'contentAmount' : 'contentUnit', 'amount and unit of the content go together');
}

function toView({ id: itemId, code, name, unit, kind, supply, alternatives, hazards }: ItemWithSupply): ItemSupplyView {
  const bands = hazards.map(({ fromPercent, belowPercent, ...rest }) => ({
    ...rest,
    fromPercent: fromPercent.toNumber(),
    belowPercent: belowPercent?.toNumber() ?? null,
  }));
  const strength = supply?.strengthPercent?.toNumber() ?? null;
  const now = strength === null ? (bands.length === 1 ? (bands[0] ?? null) : null) : hazardsAt(bands, strength);
  return viewOf(ItemSupplyView, {
    itemId,
    code,
    name,
    unit,
    criticality: (supply?.criticality ?? 'can wait') as Criticality,
    shelfLifeDays: supply?.shelfLifeDays ?? null,
    reviewDays: supply?.reviewDays ?? 0,
    supersededBy: supply?.supersededBy ? related(supply.supersededBy, '') : null,
    strengthPercent: supply?.strengthPercent?.toFixed() ?? null,
    contentAmount: supply?.contentAmount?.toFixed() ?? null,
    contentUnit: supply?.contentUcum ?? null,
    alternatives: alternatives.map(({ alternative, note }) => related(alternative, note)),
    hazards: bands.map(hazardView),
    hazardNow: now === null ? null : hazardView(now),
    usualHazards: kind === 'chemical' && bands.length === 0 ? (usualHazards(name)?.bands ?? []).map(hazardView) : [],
    mustNotMeet: kind === 'chemical' ? enemiesOf(name) : [],
    version: supply?.version ?? 0,
  });
}

const related = ({ id, code, name }: { id: string; code: string; name: string }, note: string) => viewOf(RelatedItemView, { itemId: id, code, name, note });

const hazardView = ({
  fromPercent,
  belowPercent,
  unNumber,
  packingGroup,
  signalWord,
  statements,
}: Omit<HazardBand, 'signalWord'> & { signalWord: string }): HazardView =>
  viewOf(HazardView, {
    fromPercent: String(fromPercent),
    belowPercent: belowPercent === null ? null : String(belowPercent),
    unNumber,
    packingGroup,
    signalWord,
    statements: [...statements],
  });

/** What a chemical must not meet, and what happens, by its name. */
function enemiesOf(name: string): string[] {
  const own = chemicalClass(name);
  return INCOMPATIBILITIES.flatMap(({ classes: [one, other], happens }) => (one === own || other === own ? [`${one === own ? other : one}: ${happens}`] : []));
}
