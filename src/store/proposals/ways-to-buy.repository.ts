import type { Reader } from '../../app/index.js';

export interface SupplierTerms {
  readonly id: string;
  readonly name: string;
  readonly currency: string;
  readonly orderCost: number | null;
}

export const supplierTerms = (reader: Reader) =>
  reader.$queryRaw<SupplierTerms[]>`SELECT id, name, currency, order_cost::float8 AS "orderCost" FROM supplier WHERE ended_on IS NULL`;
