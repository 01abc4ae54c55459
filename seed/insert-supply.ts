import { newId } from '../src/app/index.js';
import type { PrismaClient } from '../src/generated/prisma/client.js';
import { usualHazards } from '../src/store/core/supply/hazard-library.js';
import { BAR_CODES, GBP_RATE, ITEM_SUPPLY, OFFERS, OPEN_ORDERS, PAST_ORDERS, STOCK_SETTINGS, SUPPLIERS } from './data/supply.js';
import { idOf, type ScenarioIds } from './insert-registry.js';
import type { Scenario } from './types.js';

const DAY_MS = 86_400_000;
const STOREKEEPER = 'tomas.reedway';

interface Made {
  readonly prisma: PrismaClient;
  readonly ids: ScenarioIds;
  readonly suppliers: ReadonlyMap<string, string>;
  readonly storeId: string;
  readonly until: Date;
}

/** Who sells what at what price, how long it took to come, and what is on its way. */
export async function insertSupply(prisma: PrismaClient, { until }: Scenario, ids: ScenarioIds): Promise<void> {
  const suppliers = new Map(SUPPLIERS.map(({ key }) => [key, newId()]));
  const { id: storeId } = await prisma.place.findFirstOrThrow({ where: { kind: 'store' }, select: { id: true } });
  await prisma.supplier.createMany({
    data: SUPPLIERS.map(({ key, ...supplier }) => ({ ...supplier, id: idOf(suppliers, key), note: 'Demo data: invented company.' })),
  });
  const made = { prisma, ids, suppliers, storeId, until };
  await insertOffers(made);
  await insertItemData(made);
  await insertOrders(made);
  await insertSettings(made);
}

async function insertSettings({ prisma, ids, until }: Made): Promise<void> {
  const places = new Map((await prisma.place.findMany({ select: { id: true, name: true } })).map(({ id, name }) => [name, id]));
  await prisma.stockSetting.createMany({
    data: STOCK_SETTINGS.map(([item, place, minimum, reviewDays, jobs, note]) => ({
      itemId: idOf(ids.items, item),
      placeId: idOf(places, place),
      minimum,
      reviewDays,
      ...(jobs === null ? {} : { service: 'jobs', asked: jobs }),
      note,
      by: idOf(ids.names, STOREKEEPER),
      at: until,
    })),
  });
}

const dayBefore = (until: Date, days: number): Date => new Date(until.getTime() - days * DAY_MS);
const dateBefore = (until: Date, days: number): Date => new Date(dayBefore(until, days).toISOString().slice(0, 10));

async function insertOffers({ prisma, ids, suppliers, until }: Made): Promise<void> {
  const by = idOf(ids.names, STOREKEEPER);
  const offers = OFFERS.map(([item, supplier, purchaseUnit, unitsPerPurchase, price, pack]) => ({
    offer: { id: newId(), itemId: idOf(ids.items, item), supplierId: idOf(suppliers, supplier), purchaseUnit, unitsPerPurchase, pack },
    price,
  }));
  await prisma.currencyRate.create({ data: { currency: 'GBP', fromDay: dateBefore(until, 400), rate: GBP_RATE, by } });
  await prisma.offer.createMany({ data: offers.map(({ offer }) => offer) });
  await prisma.offerPrice.createMany({ data: offers.map(({ offer, price }) => ({ offerId: offer.id, fromDay: dateBefore(until, 400), price, by })) });
}

async function insertItemData({ prisma, ids }: Made): Promise<void> {
  await prisma.itemSupply.createMany({
    data: ITEM_SUPPLY.map(([item, criticality, shelfLifeDays, strengthPercent]) => ({
      itemId: idOf(ids.items, item),
      criticality,
      shelfLifeDays,
      strengthPercent,
    })),
  });
  const chemicals = await prisma.item.findMany({ where: { kind: 'chemical' }, select: { id: true, name: true } });
  await prisma.itemHazard.createMany({
    data: chemicals.flatMap(({ id, name }) => (usualHazards(name)?.bands ?? []).map((band) => ({ ...band, itemId: id, statements: [...band.statements] }))),
  });
  await prisma.barCode.createMany({
    data: BAR_CODES.map(([code, item, quantity]) => ({ code, itemId: idOf(ids.items, item), quantity, by: idOf(ids.names, STOREKEEPER) })),
  });
}

async function insertOrders(made: Made): Promise<void> {
  for (const [supplier, item, quantity, sentDaysAgo, cameAfter] of PAST_ORDERS) await insertOrder(made, { supplier, item, quantity, sentDaysAgo, cameAfter });
  for (const [supplier, item, quantity, sentDaysAgo, neededInDays] of OPEN_ORDERS)
    await insertOrder(made, { supplier, item, quantity, sentDaysAgo, neededInDays });
}

interface DemoOrder {
  readonly supplier: string;
  readonly item: string;
  readonly quantity: number;
  readonly sentDaysAgo: number;
  readonly cameAfter?: number;
  readonly neededInDays?: number;
}

/** What came before the opening stock was counted lies within that count, and was posted by none of these receipts. */
async function insertOrder(
  { prisma, ids, suppliers, storeId, until }: Made,
  { supplier, item, quantity, sentDaysAgo, cameAfter, neededInDays }: DemoOrder,
): Promise<void> {
  const offer = OFFERS.find(([code, of]) => code === item && of === supplier);
  const currency = SUPPLIERS.find(({ key }) => key === supplier)?.currency;
  if (offer === undefined || currency === undefined) throw new Error(`The demo orders ${item} from ${supplier}, which does not offer it`);
  const [, , unit, unitsPerPurchase, price] = offer;
  const [byId, by, sentAt] = [idOf(ids.people, STOREKEEPER), idOf(ids.names, STOREKEEPER), dayBefore(until, sentDaysAgo)];
  const cameAt = cameAfter === undefined ? null : dayBefore(until, sentDaysAgo - cameAfter);
  const [orderId, lineId, receiptId] = [newId(), newId(), newId()];
  const ended = cameAt === null ? {} : { state: 'closed', endedAt: cameAt, endedBy: by };
  const acts = { madeAt: sentAt, madeBy: by, approvedAt: sentAt, approvedBy: by, sentAt, sentBy: by, sentHow: 'by hand' };
  const rate = currency === 'GBP' ? GBP_RATE : '1';
  await prisma.purchaseOrder.create({
    data: { id: orderId, supplierId: idOf(suppliers, supplier), placeId: storeId, currency, rate, state: 'sent', ...acts, ...ended },
  });
  const neededOn = neededInDays === undefined ? null : dateBefore(until, -neededInDays);
  await prisma.purchaseOrderLine.create({
    data: { id: lineId, orderId, no: 1, itemId: idOf(ids.items, item), unit, unitsPerPurchase, quantity, price, neededOn },
  });
  const changes = [
    ...['made', 'approved', 'sent'].map((what) => ({ what, at: sentAt })),
    ...(cameAt === null ? [] : ['received', 'closed'].map((what) => ({ what, at: cameAt }))),
  ];
  await prisma.purchaseOrderChange.createMany({ data: changes.map((change) => ({ ...change, orderId, byId, by })) });
  if (cameAt === null) return;
  await prisma.orderReceipt.create({ data: { id: receiptId, orderId, at: cameAt, enteredAt: cameAt, byId, by, requestHash: 'demo' } });
  await prisma.orderReceiptLine.create({ data: { receiptId, lineId, outcome: 'good', quantity: quantity * unitsPerPurchase, placeId: storeId } });
}
