import { describe, expect, test } from '@jest/globals';
import { type KitPart, type KitStock, type KitTask, kitOf } from './kit.js';

const part = (code: string, quantity: string, everyVisit = false): KitPart => ({ itemId: code, code, name: code, unit: 'C62', quantity, everyVisit });
const task = (more: Partial<KitTask> = {}): KitTask => ({
  crew: 1,
  waterOffMinutes: 0,
  skills: [],
  certificates: [],
  tools: [],
  instruments: [],
  chemicals: [],
  parts: [],
  ...more,
});
const held = (itemId: string, onHand: string, placeName: string): KitStock => ({
  itemId,
  placeId: placeName,
  placeName,
  kind: placeName.startsWith('Van') ? 'van' : 'store',
  onHand,
});

describe('the kit of a visit', () => {
  test('sums parts over its tasks, and takes what every visit uses once', () => {
    const { items } = kitOf(
      [task({ parts: [part('SEAL', '2'), part('GLOVES', '2', true)] }), task({ parts: [part('SEAL', '0.5'), part('GLOVES', '4', true)] })],
      [],
      [],
    );
    expect(items.map(({ code, quantity }) => `${quantity} ${code}`)).toEqual(['4 GLOVES', '2.5 SEAL']);
  });

  test('what one task asks for by the piece comes on top of what every visit uses', () => {
    expect(kitOf([task({ parts: [part('RAG', '1', true)] }), task({ parts: [part('RAG', '3')] })], [], []).items[0]?.quantity).toBe('4');
  });

  test('says what the vans hold, what is to be picked where, and what is not there at all', () => {
    const stock = [held('SEAL', '1', 'Van 1'), held('SEAL', '0.5', 'Van 2'), held('SEAL', '2', 'Main'), held('SEAL', '1', 'North'), held('OIL', '9', 'Van 1')];
    const { items } = kitOf([task({ parts: [part('SEAL', '6'), part('OIL', '2')] })], stock, []);
    expect(items).toMatchObject([
      { code: 'OIL', inVan: '9', toPick: '0', short: '0', stores: [] },
      {
        code: 'SEAL',
        quantity: '6',
        inVan: '1.5',
        toPick: '4.5',
        short: '1.5',
        stores: [
          { placeName: 'Main', onHand: '2' },
          { placeName: 'North', onHand: '1' },
        ],
      },
    ]);
  });

  test('what no store holds is handed over from other vans as far as they can spare it, and only the rest is short', () => {
    const stock = [held('SEAL', '1', 'Van 1'), held('SEAL', '2', 'Main'), held('OIL', '1', 'Main')];
    const spare = (itemId: string, name: string, quantity: string) => ({ itemId, name, quantity });
    const vans = [spare('SEAL', 'Ada', '2'), spare('OIL', 'Ada', '7'), spare('SEAL', 'Tom', '9')];
    const ofKit = (seals: string, others = vans) => kitOf([task({ parts: [part('SEAL', seals), part('OIL', '1')] })], stock, others).items;
    const [oil, seal] = ofKit('6');
    expect(oil).toMatchObject({ otherVans: [], short: '0' });
    expect(seal?.otherVans).toEqual([
      { name: 'Ada', quantity: '2' },
      { name: 'Tom', quantity: '1' },
    ]);
    expect(seal).toMatchObject({ toPick: '5', short: '0' });
    expect(ofKit('6', vans.slice(0, 2))[1]).toMatchObject({ otherVans: [{ name: 'Ada', quantity: '2' }], short: '1' });
  });

  test('adds up chemicals of one strength, and tells which must not meet', () => {
    const clean = (chemical: string, litres: number, strength: string) => task({ chemicals: [{ chemical, litres, strength }] });
    const kit = kitOf(
      [clean('citric acid', 0.1, '50 %'), clean('citric acid', 0.2, '50 %'), clean('citric acid', 1, '10 %'), clean('sodium hypochlorite', 5, '12 %')],
      [],
      [],
    );
    expect(kit.chemicals.map(({ chemical, litres, strength }) => `${litres} L ${chemical} ${strength}`)).toEqual([
      '1 L citric acid 10 %',
      '0.3 L citric acid 50 %',
      '5 L sodium hypochlorite 12 %',
    ]);
    expect(kit.keepApart).toEqual([{ chemicals: ['citric acid', 'sodium hypochlorite'], happens: 'chlorine gas, possibly violent' }]);
  });

  test('names tools, instruments, skills and certificates once', () => {
    const kit = kitOf(
      [task({ tools: ['Torque wrench', 'Hoist'], crew: 2, waterOffMinutes: 30 }), task({ tools: ['Hoist'], skills: ['electrician'], waterOffMinutes: 15 })],
      [],
      [],
    );
    expect(kit).toMatchObject({ tools: ['Hoist', 'Torque wrench'], skills: ['electrician'], instruments: [], certificates: [], crew: 2, waterOffMinutes: 45 });
  });
});
