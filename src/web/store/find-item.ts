import { api, type Schemas } from '../api/client.js';

/** An item as it was found, with what the label said of it. */
export interface ChosenItem {
  readonly itemId: string;
  readonly name: string;
  readonly code: string;
  readonly unit: string;
  readonly lot: string;
  readonly expiresOn: string;
  /** Units of use; empty: the label does not say */
  readonly quantity: string;
  readonly serial: string | null;
  /** The part that is on record under this serial number */
  readonly partId: string | null;
}

const MOST = 8;
const bare = ({ id, name, code, unit }: Schemas['ItemView']): ChosenItem => ({
  itemId: id,
  name,
  code,
  unit,
  lot: '',
  expiresOn: '',
  quantity: '',
  serial: null,
  partId: null,
});

/** What a scan or a typed text means: a code first, then a part of a name. Throws what the service refused with. */
export async function findItem(text: string): Promise<readonly ChosenItem[]> {
  const scan = await api.GET('/api/bar-codes/scan', { params: { query: { text } } });
  if (scan.data !== undefined && scan.data.item !== null) return [await fromScan(scan.data, scan.data.item)];
  const items = await api.GET('/api/items', { params: { query: { find: text, limit: MOST } } });
  if (items.data === undefined) throw items.error;
  const exact = items.data.items.filter(({ code }) => code.toLowerCase() === text.toLowerCase());
  return (exact.length === 1 ? exact : items.data.items).map(bare);
}

async function fromScan({ lot, serial, expiresOn, bestBefore, count }: Schemas['ScanView'], item: Schemas['BarCodeView']): Promise<ChosenItem> {
  const quantity = serial !== null ? '1' : count !== null ? String(count * Number(item.quantity)) : Number(item.quantity) === 1 ? '' : item.quantity;
  return {
    itemId: item.itemId,
    name: item.itemName,
    code: item.itemCode,
    unit: item.unit,
    lot: lot ?? '',
    expiresOn: expiresOn ?? bestBefore ?? '',
    quantity,
    serial,
    partId: serial === null ? null : await partOf(item.itemId, serial),
  };
}

async function partOf(itemId: string, serial: string): Promise<string | null> {
  const { data } = await api.GET('/api/parts', { params: { query: { itemId, find: serial, limit: MOST } } });
  return data?.items.find(({ serialNumber }) => serialNumber === serial)?.id ?? null;
}
