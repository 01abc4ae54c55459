import { act, check, LOCKED, NO_PRESSURE, photo, reading, rule, safe, safeCheck, sheet } from './library-terms.js';

const CARTRIDGES = 'Change the cartridges';
const HOUSING = 'Check housing, vent and O-rings';
const CIP = 'Recovery clean (CIP)';
const CEB = 'Check the maintenance clean (CEB)';
const INTEGRITY = 'Hold an integrity test';
const RACK = 'Walk along the rack: leaks, air and noises';
const REVIEW = 'Judge the membranes: clean again, repair or replace';
const MODULE = 'Replace a module';
const FIBRES = 'Close broken fibres';

const CHEMICAL_GEAR = safeCheck('Goggles, gloves, apron and boots are on, the eyewash runs, somebody knows where you are');
const RINSED_BETWEEN = safeCheck('Rinsed until the pH is that of the feed and no chlorine shows: hypochlorite and acid never meet, they give chlorine gas');
const NO_SUPPLY = safeCheck('No water goes to supply until the integrity test has passed or the regulator agrees');

export const MEMBRANE_SHEETS = [
  sheet(CARTRIDGES, 'part change', 45, { waterOffMinutes: 40, tools: ['Housing key'], hazards: ['stored pressure'] }, [
    reading('Pressure drop before the change', 'kPa', { signal: 'cartridge_dp' }),
    NO_PRESSURE,
    photo('Old cartridges: colour and slime'),
    act('Take all out, rinse the housing, wet the new O-rings, seat every cartridge'),
    check('Number of cartridges as the plate says, none crooked'),
    act('Fill slowly with the vent open until no air comes'),
    reading('Pressure drop after the change', 'kPa', { signal: 'cartridge_dp', high: 30 }),
  ]),
  sheet(HOUSING, 'inspection', 30, { waterOffMinutes: 20, hazards: ['stored pressure'] }, [
    NO_PRESSURE,
    check('Cover bolts or clamp: threads sound, none missing'),
    act('Renew the cover O-ring where it is flat or hard'),
    check('Vent and drain open and close'),
    check('No drops after filling'),
  ]),
  sheet(
    CIP,
    'clean',
    360,
    {
      waterOffMinutes: 360,
      skills: ['Handling of chemicals', 'Chemical cleaning of membranes'],
      instruments: ['pH meter', 'Chlorine test', 'Thermometer'],
      chemicals: [
        { chemical: 'sodium hypochlorite', litres: 15, strength: '125 g/L; bath 500 to 2,000 mg/L free chlorine' },
        { chemical: 'sodium hydroxide', litres: 8, strength: '50 %; bath pH 11 to 12' },
        { chemical: 'citric acid', litres: 30, strength: '50 %; bath 1 to 2 %, pH 2 to 3' },
      ],
      hazards: ['hot solution', 'stored pressure', 'confined space'],
      note: 'Baths, temperatures and times by trade texts: alkaline 2 to 4 h at 25 to 40 °C, acid 1 to 2 h. The membrane maker’s limits of pH, chlorine and temperature win. Litres for about 1 m³ of bath.',
    },
    [
      CHEMICAL_GEAR,
      reading('Permeability before, at reference temperature', 'L/m2/h/bar'),
      act('Backwash twice, drain the rack, fill the CIP tank with filtrate'),
      safeCheck('Valves to supply and to other skids are shut and locked'),
      act('Alkaline bath: caustic first, then hypochlorite; circulate and soak'),
      reading('pH of the alkaline bath', '1', { low: 11, high: 12 }),
      reading('Free chlorine of the bath at the start', 'mg/L', { signal: 'chlorine', low: 300, high: 2000 }),
      reading('Temperature of the bath', 'Cel', { signal: 'temperature', low: 20, high: 40 }),
      RINSED_BETWEEN,
      act('Acid bath: circulate and soak'),
      reading('pH of the acid bath', '1', { low: 2, high: 3 }),
      safe('Neutralise the spent baths apart from each other and let them off only as the permit allows'),
      act('Rinse, backwash, filtrate to drain'),
      safeCheck('No chlorine and no foam in the rinse water; pH as the feed'),
      reading('Permeability after, at reference temperature', 'L/m2/h/bar'),
      NO_SUPPLY,
      act('Enter the clean with its chemicals, strengths and contact times'),
    ],
  ),
  sheet(CEB, 'inspection', 40, { instruments: ['Chlorine test', 'pH meter'], skills: ['Handling of chemicals'], hazards: ['stored pressure'] }, [
    CHEMICAL_GEAR,
    act('Watch one maintenance clean from dosing to rinse'),
    reading('Free chlorine in the rack', 'mg/L', { signal: 'chlorine', low: 100, high: 300 }),
    reading('Soak', 'min', { low: 5, high: 20 }),
    safeCheck('The dose of acid and that of hypochlorite have a full rinse between them'),
    check('The rinse goes to drain until no chlorine shows'),
  ]),
  sheet(
    INTEGRITY,
    'integrity test',
    45,
    {
      waterOffMinutes: 30,
      instruments: ['Pressure gauge with a certificate in date', 'Thermometer'],
      hazards: ['compressed air'],
      note: 'The plant’s own daily to weekly tests go on. Pressure, limits and frequency as agreed with the regulator; the module maker’s highest test pressure is never passed.',
    },
    [
      safeCheck('The regulator of the test air is set below the module maker’s highest test pressure, the safety valve is fitted'),
      safeCheck('Nobody stands in front of end caps and couplings while the rack is under air'),
      act('Drain the feed side, pressurise with air, wait until the pressure settles'),
      reading('Pressure at the start', 'kPa', { low: 97 }),
      reading('Pressure after ten minutes', 'kPa'),
      reading('Water temperature', 'Cel', { signal: 'temperature' }),
      act('Listen and look for bubbles in the filtrate elbows'),
      act('Enter the test in the integrity record'),
      NO_SUPPLY,
    ],
  ),
  sheet(RACK, 'inspection', 25, {}, [
    check('No drops at couplings, end caps and manifolds'),
    check('No bubbles that keep coming in the filtrate elbows'),
    check('No valve hisses, no pipe hammers in a backwash'),
    reading('Feed pressure', 'kPa', { signal: 'feed_pressure' }),
    reading('Filtrate pressure', 'kPa', { signal: 'filtrate_pressure' }),
    reading('Filtrate flow', 'm3/h', { signal: 'filtrate_flow' }),
    photo('The rack from the front'),
  ]),
  sheet(REVIEW, 'inspection', 120, {}, [
    act('Read permeability after the last two recovery cleans against that when new'),
    act('Read pins per test and area lost, module by module'),
    act('Read chlorine exposure against what the membrane maker allows'),
    check('The log removal asked for can still be proved'),
    act('Write down: clean again in another way, repair, replace some, or replace all'),
  ]),
  sheet(
    MODULE,
    'part change',
    180,
    { crew: 2, waterOffMinutes: 180, tools: ['Lifting strap', 'Strap wrench'], hazards: ['heavy lift', 'stored pressure', 'compressed air'] },
    [
      LOCKED,
      NO_PRESSURE,
      act('Keep the new module wet and closed until it is hung: fibres that dry out are lost'),
      safe('Drain the old module before it is lifted; two people or a hoist'),
      act('New O-rings, wetted with water, at every coupling'),
      act('Rinse to drain until preservative and its foam are gone'),
      act('Enter the part fitted with its serial number'),
      act('Hold an integrity test and enter it'),
      NO_SUPPLY,
    ],
  ),
  sheet(
    FIBRES,
    'repair',
    120,
    { crew: 2, waterOffMinutes: 120, tools: ['Pins of the maker', 'Pin driver'], hazards: ['compressed air', 'stored pressure', 'heavy lift'] },
    [
      safeCheck('The regulator of the test air is set below the module maker’s highest test pressure'),
      act('Find the module by its bubbles, part it from the rack'),
      act('Keep the fibres wet, air under pressure on the shell side, mark each end that bubbles'),
      safe('Take the pressure off before a pin is driven'),
      act('Pin both ends of each broken fibre, count the pins'),
      photo('Potting face after the repair'),
      act('Enter module and pins in the integrity record, hold the test again'),
      NO_SUPPLY,
    ],
  ),
];

export const MEMBRANE_RULES = [
  rule(HOUSING, 'pre-filter', { days: 182 }),
  rule(CARTRIDGES, 'pre-filter', { outlookLimit: 'cartridge dP', days: 90, contains: [HOUSING] }),
  rule(CIP, 'skid', { outlookLimit: 'permeability', days: 182 }),
  rule(CEB, 'skid', { days: 182 }),
  rule(INTEGRITY, 'skid', { days: 90, base: 'fixed', graceDays: 14 }),
  rule(RACK, 'skid', { days: 90 }),
  rule(REVIEW, 'skid', { days: 1825, conditionFigure: 'permeability share of new', conditionBelow: 0.5 }),
];
