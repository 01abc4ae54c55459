import type { PositionKind } from '../../src/shared/position-kinds.js';
import type { SignalCode } from '../../src/shared/signals.js';
import type { SharedPlan, SkidPlan } from '../plan.js';
import type { ScenarioPosition } from '../types.js';

/** A position, what is fitted in it when the plant is built, and its counter. */
export interface BuiltPosition extends ScenarioPosition {
  readonly itemCode: string | null;
  readonly hasSerial: boolean;
}

interface More {
  readonly parent?: string;
  readonly item?: string;
  readonly strokes?: number;
}

const VALVES = ['Feed valve', 'Filtrate valve', 'Backwash valve', 'Drain valve', 'Chemical valve'] as const;
/** Opened and shut in every cycle, except the last one, which moves in a maintenance clean only. */
const STROKES = [2, 2, 2, 2, 0.1] as const;

const SIGNAL_OF_TRANSMITTER: Readonly<Record<string, SignalCode>> = {
  'Differential pressure transmitter': 'tmp',
  'Feed pressure transmitter': 'feed_pressure',
  'Filtrate pressure transmitter': 'filtrate_pressure',
  'Concentrate pressure transmitter': 'concentrate_pressure',
  'Flow transmitter': 'filtrate_flow',
  'Temperature transmitter': 'temperature',
  'Turbidity transmitter': 'feed_turbidity',
};

export function positionsOfSkid(plan: SkidPlan): BuiltPosition[] {
  const { key, flowScheme, tmpFrom } = plan;
  const add = adder(key);
  const isSubmerged = flowScheme === 'submerged';
  const transmitters = [
    ...(tmpFrom === 'measured' ? ['Differential pressure transmitter'] : isSubmerged ? [] : ['Feed pressure transmitter']),
    ...(tmpFrom === 'measured' ? [] : ['Filtrate pressure transmitter']),
    ...(flowScheme === 'cross-flow' ? ['Concentrate pressure transmitter'] : []),
    'Flow transmitter',
    'Temperature transmitter',
    'Turbidity transmitter',
  ];
  return [
    ...pump(add, isSubmerged ? 'Filtrate pump' : 'Feed pump', 'feed pump'),
    ...pump(add, 'Backwash pump', 'backwash pump'),
    ...(hasOwnCip(plan) ? pump(add, 'CIP pump', 'CIP pump') : []),
    ...(isSubmerged ? [add('Air scour blower', 'blower'), add('Air scour blower: motor', 'motor', { parent: 'Air scour blower' })] : []),
    ...plan.tanks.flatMap(({ name, doseMgL, litresPerCeb, litresPerCip }) => [
      add(name, 'tank'),
      ...(doseMgL === null && litresPerCeb === null && litresPerCip === null
        ? []
        : [add(`Dosing pump of the ${name.toLowerCase()}`, 'dosing pump', { item: 'DEMO-PU-2' })]),
    ]),
    ...(plan.cartridge ? [add('Cartridge housing', 'pre-filter')] : []),
    add('Membrane rack', 'other'),
    ...Array.from({ length: plan.modules }, (_, index) => add(moduleName(index), 'module', { parent: 'Membrane rack', item: plan.moduleCode })),
    ...VALVES.flatMap((valve, index) => [
      add(valve, 'valve'),
      add(`${valve}: actuator`, 'actuator', { parent: valve, item: 'DEMO-AC-1', strokes: STROKES[index] ?? 2 }),
    ]),
    ...transmitters.map((name) => add(name, 'transmitter')),
  ];
}

export function positionsOfShared({ key, machine, tanks }: SharedPlan): BuiltPosition[] {
  const add = adder(key);
  if (machine === 'compressor')
    return [add('Compressor', 'compressor'), add('Compressor: motor', 'motor', { parent: 'Compressor' }), add('Air receiver', 'tank')];
  return [...pump(add, 'CIP pump', 'CIP pump'), add('CIP tank', 'tank'), ...tanks.map(({ name }) => add(name, 'tank'))];
}

export const positionKey = (skidKey: string, name: string): string => `${skidKey} ${name}`;
export const moduleName = (index: number): string => `Module ${index + 1}`;

/** A skid without a share in a CIP unit cleans itself. */
const hasOwnCip = ({ tanks }: SkidPlan): boolean => tanks.some(({ litresPerCip }) => litresPerCip !== null);

type Add = ReturnType<typeof adder>;

function adder(skidKey: string) {
  return (name: string, kind: PositionKind, { parent, item, strokes }: More = {}): BuiltPosition => ({
    key: positionKey(skidKey, name),
    skidKey,
    parentKey: parent === undefined ? null : positionKey(skidKey, parent),
    kind,
    name,
    strokesPerCycle: strokes ?? null,
    signal: SIGNAL_OF_TRANSMITTER[name] ?? null,
    itemCode: item ?? null,
    hasSerial: item !== undefined,
  });
}

function pump(add: Add, name: string, kind: PositionKind): BuiltPosition[] {
  return [
    add(name, kind, { item: 'DEMO-PU-1' }),
    { ...add(`${name}: seal`, 'seal', { parent: name, item: 'DEMO-SE-1' }), hasSerial: false },
    add(`${name}: motor`, 'motor', { parent: name }),
  ];
}
