import { act, check, FROM, GUARDS_BACK, LOCKED, NO_PRESSURE, photo, reading, rule, safe, safeCheck, sheet } from './library-terms.js';

const GREASE = 'Grease the bearings, check seal and alignment';
const ALIGN = 'Check alignment, coupling and shaft sleeve';
const OPEN = 'Open and inspect the pump';
const PERFORMANCE = 'Test head, flow and power';
const GREASE_BACKWASH = 'Grease the bearings, check the seal';
const GREASE_CIP = 'Grease the bearings, check seal and strainer';
const SEAL = 'Renew the mechanical seal';
const WINDING = 'Measure the insulation of the winding';
const DIAPHRAGM = 'Renew diaphragm and valves';
const DRAWDOWN = 'Check the dosing pump by drawdown';

const HANDS = ['Grease gun', 'Open-end spanners', 'Feeler gauge'];

export const PUMP_SHEETS = [
  sheet(GREASE, 'service', 45, { tools: HANDS, instruments: ['Vibration meter', 'Surface thermometer'], hazards: ['moving machinery', 'electricity'] }, [
    check('Runs without knocking, howling or cavitation'),
    reading('Vibration velocity at the drive-end bearing', 'mm/s', { high: 4.5 }),
    reading('Bearing housing at the drive end', 'Cel', { high: 80 }),
    safeCheck('Hair, sleeves and rags are clear of the coupling before the grease gun is set to a running pump'),
    act('Wipe the nipples, press in the grease that the plate names, wipe off what comes out'),
    check('Seal: no more than a drop a minute'),
    act('Look through the coupling guard: no rubber dust, no loose bolts'),
    reading('Hour meter', 'h', { signal: 'run_hours' }),
  ]),
  sheet(ALIGN, 'service', 75, { tools: [...HANDS, 'Shims'], instruments: ['Alignment device or dial gauge'], hazards: ['moving machinery', 'electricity'] }, [
    LOCKED,
    act('Take off the coupling guard and look at spider and hubs'),
    reading('Offset of the shafts as found', 'mm', { high: 0.1 }),
    act('Align, tighten the feet crosswise'),
    reading('Offset of the shafts as left', 'mm', { high: 0.05 }),
    check('Shaft sleeve: no grooves that a fingernail catches in'),
    act('Change the oil of oil-lubricated bearings'),
    GUARDS_BACK,
    act('Run for ten minutes and listen'),
  ]),
  sheet(
    OPEN,
    'inspection',
    240,
    {
      crew: 2,
      waterOffMinutes: 180,
      tools: [...HANDS, 'Puller', 'Lifting tackle'],
      instruments: ['Calliper'],
      hazards: ['heavy lift', 'stored pressure', 'electricity'],
    },
    [
      LOCKED,
      NO_PRESSURE,
      act('Uncouple, lift the back pull-out unit with tackle'),
      photo('Impeller and wear ring as found'),
      reading('Clearance of the wear ring, across', 'mm', { high: 1 }),
      check('Impeller: no pitting, no rubbing marks'),
      act('Renew gaskets, wear ring where it is beyond its clearance, seal where it is marked'),
      act('Put together, align, prime'),
      GUARDS_BACK,
      reading('Discharge pressure at the usual flow', 'kPa'),
      check('No leak after ten minutes'),
    ],
  ),
  sheet(
    PERFORMANCE,
    'inspection',
    60,
    { instruments: ['Clamp meter', 'Pressure gauge'], certificates: ['Electrically skilled person'], hazards: ['electricity'] },
    [
      safeCheck('The terminal box is opened by an electrically skilled person alone'),
      act('Bring the pump to its usual duty and wait until the flow is steady'),
      reading('Suction pressure', 'kPa'),
      reading('Discharge pressure', 'kPa'),
      reading('Flow', 'm3/h'),
      reading('Motor current', 'A'),
      act('Compare with the curve of the maker and with last year: a tenth less head at the same flow is wear'),
    ],
  ),
  sheet(GREASE_BACKWASH, 'service', 40, { tools: HANDS, hazards: ['moving machinery', 'electricity'] }, [
    safeCheck('The pump is in hand mode, so that no backwash starts it'),
    act('Wipe the nipples, press in the grease that the plate names'),
    check('Seal: no more than a drop a minute'),
    act('Start by hand for one backwash and listen'),
    reading('Hour meter', 'h', { signal: 'run_hours' }),
    safeCheck('The pump is back in automatic mode'),
  ]),
  sheet(GREASE_CIP, 'service', 40, { tools: HANDS, hazards: ['stored pressure', 'hot solution', 'electricity'] }, [
    safeCheck('The CIP circuit is empty and rinsed; gloves, goggles and apron are on'),
    LOCKED,
    act('Open and clean the suction strainer'),
    act('Grease the bearings as the plate says'),
    check('Seal and gaskets: no crystals, no swelling'),
    GUARDS_BACK,
  ]),
  sheet(SEAL, 'part change', 150, { waterOffMinutes: 150, tools: [...HANDS, 'Puller'], hazards: ['stored pressure', 'electricity'] }, [
    LOCKED,
    NO_PRESSURE,
    photo('Seal faces as found'),
    act('Clean shaft and seat, fit the new seal with clean hands and water, never touch the faces'),
    act('Fill and vent before the first start: a seal that runs dry is gone in seconds'),
    GUARDS_BACK,
    check('No leak after ten minutes'),
  ]),
  sheet(WINDING, 'inspection', 20, { instruments: ['Insulation tester'], certificates: ['Electrically skilled person'], hazards: ['electricity'] }, [
    LOCKED,
    safeCheck('Dead: tested between all phases and to earth'),
    safe('Part the frequency converter from the motor before the tester is used'),
    reading('Winding to earth, after one minute', 'MOhm', { low: 1 }),
    act('Discharge the winding, connect again, try the direction of rotation'),
  ]),
  sheet(DIAPHRAGM, 'part change', 50, { skills: ['Handling of chemicals'], hazards: ['stored pressure', 'electricity'] }, [
    safeCheck('Goggles, gloves and apron are on, the eyewash runs'),
    LOCKED,
    safe('Close the suction, relieve the discharge into a bucket of water, rinse the head'),
    act('Renew diaphragm, suction and discharge valve; note which side was worn'),
    act('Prime, look for drops at every joint'),
    reading('Delivery at the usual setting', 'L/h'),
    reading('Hour meter', 'h', { signal: 'run_hours' }),
  ]),
  sheet(DRAWDOWN, 'inspection', 25, { instruments: ['Calibration cylinder', 'Stop watch'], skills: ['Handling of chemicals'], hazards: ['stored pressure'] }, [
    safeCheck('Goggles, gloves and apron are on, the eyewash runs'),
    act('Fill the cylinder, pump from it for one minute at the usual setting, three times'),
    reading('Delivery, middle of three', 'L/h'),
    check('Within a tenth of what the controller says'),
    act('Set the stroke anew where it is not, and try again'),
  ]),
];

export const PUMP_RULES = [
  rule(GREASE, 'feed pump', { runHours: 2000, days: 90 }, FROM.building),
  rule(ALIGN, 'feed pump', { days: 182, contains: [GREASE] }, FROM.naval),
  rule(OPEN, 'feed pump', { runHours: 16_000, days: 1095, contains: [ALIGN] }, FROM.naval),
  rule(PERFORMANCE, 'feed pump', { days: 365 }, FROM.waterPlant),
  rule(GREASE_BACKWASH, 'backwash pump', { runHours: 2000, days: 180 }, FROM.building),
  rule(GREASE_CIP, 'CIP pump', { runHours: 2000, days: 365 }),
  rule(SEAL, 'seal', { days: 1460 }),
  rule(WINDING, 'motor', { days: 365, whileLaidUp: 'runs on' }),
  rule(DIAPHRAGM, 'dosing pump', { runHours: 6000, days: 365 }),
  rule(DRAWDOWN, 'dosing pump', { days: 182 }),
];
