import { type ChemicalClass, chemicalClass, type Incompatibility, mustNotMeet } from './incompatibility.js';
import type { Hazard, TaskKind } from './task-sheet.js';

/** One thing to mind, with what it is about. */
export interface Caution {
  readonly about: string;
  readonly text: string;
}

/** What the cautions of a job are chosen by. */
export interface WorkToCaution {
  readonly kinds: readonly TaskKind[];
  readonly chemicals: readonly string[];
  readonly hazards: readonly Hazard[];
}

const BY_CLASS: Partial<Record<ChemicalClass, readonly Caution[]>> = {
  hypochlorite: [
    {
      about: 'Chlorine gas',
      text: 'Never bring hypochlorite together with any acid: it gives off chlorine gas. Rinse pipes, hoses and tanks between a chlorine and an acid clean.',
    },
    { about: 'Hypochlorite drums', text: 'A drum builds pressure as hypochlorite breaks down: vent it slowly, stand aside, keep it cool, dark and vented.' },
  ],
  acid: [
    {
      about: 'Chlorine gas',
      text: 'Never bring acid together with hypochlorite: it gives off chlorine gas. Rinse pipes, hoses and tanks between an acid and a chlorine clean.',
    },
  ],
  caustic: [
    {
      about: 'Caustic',
      text: 'Caustic burns skin and eyes, and heats when it is diluted: pour it into water, never water into it. Keep it off aluminium and zinc.',
    },
  ],
  'reducing agent': [
    {
      about: 'Bad air in tanks',
      text: 'Bisulfite takes the oxygen from the air of a tank and can give off sulphur dioxide: never put the head into a tank, air it, and measure the air before anybody enters.',
    },
  ],
  peroxide: [{ about: 'Peroxide', text: 'Peroxide gives off oxygen: never close it in, and keep it from reducing agents and anything that burns.' }],
};

/** Of handling any chemical. */
export const HANDLING: Caution = {
  about: 'Chemicals',
  text: 'Wear gloves, goggles and apron, and know where the eye wash is. Read the safety data sheet first.',
};
const WASTE: Caution = {
  about: 'Cleaning waste',
  text: 'Collect what comes out of a clean, neutralise it, and let it off only as the permit allows.',
};
const FIBRES: Caution = {
  about: 'Fibres',
  text: 'Fibres must never dry out or freeze: keep them wet, with preservative where they stand still, and above 0 °C.',
};
const TO_SUPPLY: Caution = {
  about: 'Water to supply',
  text: 'Before the water goes back to supply: disinfect, rinse to drain, pass the integrity test, and wait for a clear sample, as the local regulator asks.',
};

const BY_KIND: Partial<Record<TaskKind, readonly Caution[]>> = {
  clean: [
    HANDLING,
    WASTE,
    { about: 'Cleaning', text: 'Close the filtrate to supply before any cleaning solution enters, and rinse until pH and chlorine are as before.' },
  ],
  'integrity test': [
    {
      about: 'Compressed air',
      text: 'Never over the test pressure of the module: set the regulator and check its relief valve before the air is opened. Air under pressure stores far more energy than water.',
    },
    {
      about: 'Failed test',
      text: 'After a failed test the water of this unit is kept from supply until it passes again or the local regulator agrees.',
    },
  ],
  'lay-up': [HANDLING, WASTE, FIBRES],
  preservative: [HANDLING, WASTE, FIBRES],
  restart: [HANDLING, WASTE, TO_SUPPLY],
};

const BY_HAZARD: Record<Hazard, Caution> = {
  electricity: {
    about: 'Electricity',
    text: 'Isolate, lock and tag the supply, and prove that it is dead before touching anything. A licensed person where local rules ask for one.',
  },
  'stored pressure': {
    about: 'Stored pressure',
    text: 'Isolate, lock and tag the valves, and let the pressure off at a drain. Trust the open drain, not the gauge.',
  },
  'compressed air': {
    about: 'Compressed air',
    text: 'Let the air off and lock its valve before opening. Air scour and test air never go over the test pressure of the module.',
  },
  'hot solution': {
    about: 'Hot solutions',
    text: 'Hot cleaning solution scalds and gives off more vapour: stay below the temperature that the membrane maker allows.',
  },
  'heavy lift': { about: 'Heavy parts', text: 'A wet module weighs far more than a new one: lift with two people or with a hoist.' },
  'confined space': {
    about: 'Confined space',
    text: 'Nobody enters a tank or pit without a permit, measured air, a way out and a second person outside. A licensed person where local rules ask for one.',
  },
  'work at height': { about: 'Height', text: 'Use a platform or a fixed ladder, and keep the ground below clear.' },
  'working alone': {
    about: 'Working alone',
    text: 'Agree when to call in and who comes if you do not. Some work must not be done alone: isolation, tanks, chemicals.',
  },
  'moving machinery': { about: 'Moving parts', text: 'Machines start by themselves: isolate, lock and tag before a guard is opened.' },
};

/** What every list of cautions ends with. */
export const LOCAL_RULES: Caution = {
  about: 'Rules',
  text: 'The maker’s manual, the safety data sheet, local codes and licensed practice go before this list.',
};

/** What kills first comes first. */
const ORDER = ['Chlorine gas', 'Must not meet', 'Confined space', 'Bad air in tanks', 'Electricity', 'Compressed air', 'Stored pressure', 'Moving parts'];

/**
 * The cautions of one chemical by itself, beside those of handling any.
 *
 * Source: Chlorine Institute, sodium hypochlorite incompatibility chart, for hypochlorite and acid; the rest common practice.
 *
 * @example cautionsOfChemical('antiscalant') // => []
 */
export function cautionsOfChemical(chemical: string): Caution[] {
  return [...(BY_CLASS[chemicalClass(chemical)] ?? [])];
}

/**
 * The usual cautions of a job: by the kinds of its tasks, its chemicals and what else is dangerous about it. Each stands once; danger to life comes first, the reminder
 * of manuals and local rules last. Work on a machine that names no hazard still reminds of isolation.
 *
 * Source: chemicals as in `mustNotMeet` (Chlorine Institute, sodium hypochlorite incompatibility chart); the rest common practice. They remind, and replace no training.
 *
 * @example cautionsFor({ kinds: ['clean'], chemicals: ['sodium hypochlorite'], hazards: [] })[0].about // => "Chlorine gas"
 * @example cautionsFor({ kinds: ['inspection'], chemicals: [], hazards: [] }).length // => 2
 */
export function cautionsFor({ kinds, chemicals, hazards }: WorkToCaution): Caution[] {
  const found = [
    ...chemicals.flatMap(cautionsOfChemical),
    ...(chemicals.length > 0 ? [HANDLING] : []),
    ...meetings(chemicals),
    ...hazards.map((hazard) => BY_HAZARD[hazard]),
    ...kinds.flatMap((kind) => BY_KIND[kind] ?? []),
    ...(hazards.length === 0 ? [BY_HAZARD['stored pressure']] : []),
  ];
  const once = found.filter(({ text }, at) => found.findIndex((other) => other.text === text) === at);
  const rank = ({ about }: Caution) => (ORDER.includes(about) ? ORDER.indexOf(about) : ORDER.length);
  return [...once.sort((one, other) => rank(one) - rank(other)), LOCAL_RULES];
}

/** What of the job must not come together; hypochlorite and acid say so themselves. */
function meetings(chemicals: readonly string[]): Caution[] {
  const pairs = chemicals.flatMap((one, at) => chemicals.slice(at + 1).map((other) => ({ one, other, danger: mustNotMeet(one, other) })));
  const told = (danger: Incompatibility | null) => danger === null || danger.classes.every((each) => each === 'hypochlorite' || each === 'acid');
  const once = pairs.filter(({ danger }, at) => !told(danger) && pairs.findIndex((pair) => pair.danger === danger) === at);
  return once.map(({ one, other, danger }) => ({ about: 'Must not meet', text: `Never bring ${one} and ${other} together: ${danger?.happens}.` }));
}
