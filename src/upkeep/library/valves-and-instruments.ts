import { act, check, FROM, NO_PRESSURE, photo, reading, rule, safe, safeCheck, sheet } from './library-terms.js';

const TIGHT = 'Check that the valve closes tight';
const STROKE = 'Stroke the actuator, check its end switches';
const ACTUATOR_SEALS = 'Renew the seals of the actuator';
const ZERO_AND_SPAN = 'Check zero and span';
const TURBIDITY = 'Calibrate the turbidity meter against a standard';
const INTERLOCKS = 'Test interlocks and alarms';
const TANK = 'Clean the tank and its suction strainer';

export const VALVE_AND_INSTRUMENT_SHEETS = [
  sheet(TIGHT, 'inspection', 15, { waterOffMinutes: 15, hazards: ['stored pressure'] }, [
    safeCheck('Nobody works on the line behind the valve'),
    act('Close the valve by its actuator with pressure on one side'),
    check('The other side stays without pressure for two minutes'),
    check('Stem: no drops'),
  ]),
  sheet(STROKE, 'inspection', 15, { hazards: ['compressed air', 'moving machinery'] }, [
    safeCheck('Fingers stay out of the yoke: the actuator moves without warning'),
    reading('Time to open', 's', { high: 8 }),
    reading('Time to close', 's', { high: 8 }),
    check('Both end switches report'),
    check('Air lines and solenoid: no hissing'),
  ]),
  sheet(ACTUATOR_SEALS, 'part change', 40, { waterOffMinutes: 40, hazards: ['compressed air', 'stored pressure'] }, [
    safe('Shut off and vent the control air; springs stay caged until the housing is known to be of the double-acting kind'),
    NO_PRESSURE,
    act('Renew piston and shaft seals, grease with what the maker names'),
    reading('Time to open', 's', { high: 8 }),
    check('Both end switches report'),
  ]),
  sheet(ZERO_AND_SPAN, 'calibration', 20, { instruments: ['Reference instrument with a certificate in date'] }, [
    check('The certificate of the reference instrument is in date'),
    act('Compare at zero, in the middle and near the top of the range, before anything is set'),
    photo('Reference and display side by side'),
    act('Set zero and span where the error is beyond the tolerance, and compare again'),
    act('Enter all points as found and as left in the calibration record'),
  ]),
  sheet(
    TURBIDITY,
    'calibration',
    40,
    {
      instruments: ['Primary turbidity standard in date'],
      note: 'Quarterly calibration and a monthly clean vial: from a water-plant operation and maintenance text. As a rule of the skid, or as an override of “Check zero and span” at the turbidity meter. The maker’s manual wins.',
    },
    [
      act('Clean vial and optics, look for bubbles'),
      check('The standard is in date and was turned, not shaken'),
      reading('Display in the standard, as found', '[NTU]'),
      act('Calibrate, and enter the points in the calibration record'),
      reading('Filtrate after the meter has settled', '[NTU]', { signal: 'filtrate_turbidity', high: 0.1 }),
    ],
  ),
  sheet(INTERLOCKS, 'inspection', 90, { crew: 2, waterOffMinutes: 60, hazards: ['electricity', 'stored pressure'] }, [
    safeCheck('The control room knows, and nobody works on the skid meanwhile'),
    check('High transmembrane pressure stops the feed pump'),
    check('Dosing of acid and of hypochlorite lock each other out'),
    check('High filtrate turbidity shuts the supply'),
    check('Low tank level stops the dosing pump'),
    check('Emergency stop stops everything and vents what it should'),
    safeCheck('All simulated signals are taken off again'),
  ]),
  sheet(
    TANK,
    'service',
    60,
    {
      skills: ['Handling of chemicals'],
      hazards: ['confined space', 'stored pressure'],
      note: 'Nobody puts the head into a tank: rinse and look from outside. The maker’s manual wins.',
    },
    [
      safeCheck('Goggles, gloves and apron are on, the eyewash runs, the air is moving'),
      safeCheck('Lines and hoses carry the name of this chemical: nothing of another one is near the tank'),
      act('Run the tank down, rinse from outside, take the rinse water to where it is neutralised'),
      act('Clean the suction strainer and foot valve'),
      check('Vent is open, level device moves, no crack or bulge'),
      photo('Inside of the tank after rinsing'),
    ],
  ),
];

export const VALVE_AND_INSTRUMENT_RULES = [
  rule(TIGHT, 'valve', { days: 365 }),
  rule(STROKE, 'actuator', { days: 365 }),
  rule(ACTUATOR_SEALS, 'actuator', { cycles: 150_000, days: 1095, contains: [STROKE] }),
  rule(ZERO_AND_SPAN, 'transmitter', { days: 365, base: 'fixed' }, FROM.practice),
  rule(INTERLOCKS, 'skid', { days: 365 }),
  rule(TANK, 'tank', { days: 365 }),
];
