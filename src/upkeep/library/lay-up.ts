import { act, check, photo, reading, rule, safeCheck, sheet } from './library-terms.js';

const LAY_UP = 'Lay the skid up';
const PRESERVE = 'Renew the preservative';
const WALK = 'Look after the laid-up skid';
const RESTART = 'Restart the skid';

const BAD_AIR = safeCheck('The air at the tank is moving: bisulfite takes the oxygen and gives off sulphur dioxide');
const BISULFITE = { chemical: 'sodium bisulfite', litres: 15, strength: '40 %; bath about 1 %' };

export const LAY_UP_SHEETS = [
  sheet(
    LAY_UP,
    'lay-up',
    300,
    {
      waterOffMinutes: 300,
      skills: ['Handling of chemicals', 'Chemical cleaning of membranes'],
      instruments: ['pH meter', 'Chlorine test'],
      chemicals: [BISULFITE],
      hazards: ['confined space', 'stored pressure', 'electricity'],
      note: 'Which preservative, how strong and for how long: by the membrane maker’s manual. Litres for about 1 m³ of bath.',
    },
    [
      act('Hold a recovery clean: dirt that stays in a rack that stands is there for good'),
      safeCheck('Rinsed until no chlorine shows: bisulfite and hypochlorite destroy each other with heat'),
      BAD_AIR,
      act('Fill the rack with preservative until it comes from the filtrate side, leave no air'),
      reading('pH of the preservative', '1', { low: 3, high: 6 }),
      safeCheck('Valves to supply, feed and drain are shut and tagged: “laid up, preservative inside”'),
      safeCheck('Where it can freeze: the room is heated, or the rack holds what the maker names against frost. Fibres never freeze and never dry out'),
      act('Drain pumps, pre-filter and dead legs; take the cartridges out'),
      act('Run dosing pumps with water, close the chemical tanks'),
      act('Switch off and lock what is not needed; leave heating and control on'),
      act('Turn the pump shafts by hand a few times'),
      photo('Tags and valve positions'),
      act('Set the service state to laid up'),
    ],
  ),
  sheet(
    PRESERVE,
    'preservative',
    120,
    {
      skills: ['Handling of chemicals'],
      instruments: ['pH meter', 'Bisulfite test'],
      chemicals: [BISULFITE],
      hazards: ['confined space', 'stored pressure'],
      note: 'Every 30 to 90 days while the skid is laid up (common practice); the membrane maker’s manual wins.',
    },
    [
      BAD_AIR,
      safeCheck('Goggles, gloves and apron are on, the eyewash runs'),
      reading('pH of what is in the rack', '1', { low: 3, high: 6 }),
      act('Let the old preservative off only as the permit allows'),
      act('Fill with fresh preservative until it comes from the filtrate side, leave no air'),
      reading('pH of the fresh preservative', '1', { low: 3, high: 6 }),
      safeCheck('Valves are shut and tagged again'),
    ],
  ),
  sheet(WALK, 'inspection', 30, {}, [
    check('Tags and locks are where they were'),
    reading('Room temperature', 'Cel', { low: 5 }),
    check('No drops: the rack is still full'),
    act('Turn the pump shafts by hand a few times'),
    check('Chemical tanks: closed, nothing bulges'),
  ]),
  sheet(
    RESTART,
    'restart',
    360,
    {
      crew: 2,
      waterOffMinutes: 360,
      skills: ['Handling of chemicals'],
      instruments: ['Chlorine test', 'pH meter', 'Pressure gauge with a certificate in date'],
      chemicals: [{ chemical: 'sodium hypochlorite', litres: 2, strength: '125 g/L; rinse at 50 to 200 mg/L' }],
      hazards: ['stored pressure', 'compressed air', 'electricity', 'confined space'],
      note: 'Water goes to supply only after the sample is clear and whoever is responsible for the water agrees. Local rules win.',
    },
    [
      safeCheck('Locks are taken off by whoever put them there; nobody works on the skid'),
      act('New cartridges, open dead legs, rinse the feed line to drain'),
      act('Let the preservative off only as the permit allows, flush the rack to drain'),
      safeCheck('No bisulfite is left before any hypochlorite is dosed'),
      act('Disinfect the filtrate side, soak, rinse to drain'),
      reading('Free chlorine after the rinse', 'mg/L', { signal: 'chlorine', high: 0.5 }),
      act('Try every pump for direction and noise, every valve for its end positions'),
      act('Hold an integrity test and enter it'),
      safeCheck('The integrity test has passed'),
      act('Take the sample that local rules ask for, filtrate still to drain'),
      safeCheck('The sample is clear and the one responsible for the water agrees to supply'),
      reading('Permeability at the restart, at reference temperature', 'L/m2/h/bar'),
      act('Set the service state to in service'),
    ],
  ),
];

export const LAY_UP_RULES = [
  rule(PRESERVE, 'skid', { days: 60, whileLaidUp: 'only then' }, 'Common practice, every 30 to 90 days'),
  rule(WALK, 'skid', { days: 14, whileLaidUp: 'only then' }),
];
