import { act, check, FROM, GUARDS_BACK, LOCKED, NO_PRESSURE, reading, rule, safe, safeCheck, sheet } from './library-terms.js';

const BELT = 'Check belt and intake filter';
const OIL = 'Change the oil, clean the intake filter';
const BEARINGS = 'Check the bearings and timing gear of the blower';
const COMPRESSOR_OIL = 'Change oil, oil filter and separator';
const STARTER = 'Check the contacts of the motor starter';
const RECEIVER = 'Check safety valve, drain and receiver';

export const AIR_SHEETS = [
  sheet(BELT, 'inspection', 20, { hazards: ['moving machinery', 'electricity'] }, [
    LOCKED,
    act('Knock out or renew the intake filter'),
    check('Belt: no cracks, gives a thumb’s breadth'),
    GUARDS_BACK,
    reading('Discharge pressure', 'kPa'),
  ]),
  sheet(
    OIL,
    'service',
    60,
    {
      tools: ['Oil pan', 'Hexagon keys'],
      hazards: ['moving machinery', 'electricity', 'hot solution'],
      note: 'First change after 100 to 200 h (common practice). The maker’s manual wins.',
    },
    [
      LOCKED,
      safeCheck('The housing has cooled down to the touch'),
      act('Drain the oil, look for metal in it, fill to the middle of the glass'),
      act('Clean or renew the intake filter'),
      check('Belt tension and guard'),
      GUARDS_BACK,
      reading('Hour meter', 'h', { signal: 'run_hours' }),
      reading('Discharge pressure at scour', 'kPa'),
    ],
  ),
  sheet(BEARINGS, 'inspection', 120, { instruments: ['Vibration meter'], hazards: ['moving machinery', 'electricity', 'heavy lift'] }, [
    reading('Vibration velocity at the bearings', 'mm/s', { high: 7.1 }),
    LOCKED,
    act('Take off the covers, look at gear and bearings, feel for play'),
    check('No play that can be felt, no blue or pitted teeth'),
    act('Change the oil, clean the intake filter'),
    GUARDS_BACK,
  ]),
  sheet(COMPRESSOR_OIL, 'service', 90, { hazards: ['compressed air', 'moving machinery', 'electricity', 'hot solution'] }, [
    LOCKED,
    NO_PRESSURE,
    act('Drain the oil while it is warm, not hot; renew oil filter and separator'),
    act('Clean or renew the intake filter'),
    GUARDS_BACK,
    check('No leak of oil or air under load'),
    reading('Hour meter', 'h', { signal: 'run_hours' }),
  ]),
  sheet(STARTER, 'inspection', 30, { certificates: ['Electrically skilled person'], hazards: ['electricity'] }, [
    LOCKED,
    safeCheck('Dead: tested between all phases and to earth'),
    check('Contacts: no more than a third burnt off'),
    act('Tighten the terminals'),
    reading('Start counter', '1', { signal: 'starts' }),
  ]),
  sheet(RECEIVER, 'inspection', 30, { certificates: ['A licensed person where local rules ask for one'], hazards: ['compressed air'] }, [
    act('Let the drain blow: no rust, little water'),
    safe('Lift the safety valve by hand with ear protection on; it closes tight again'),
    check('The inspection plate of the receiver is in date'),
    reading('Pressure at which the compressor stops', 'kPa'),
  ]),
];

export const AIR_RULES = [
  rule(BELT, 'blower', { days: 30 }),
  rule(OIL, 'blower', { runHours: 1000, days: 182, contains: [BELT] }, 'From maintenance texts (500 to 1,500 h)'),
  rule(BEARINGS, 'blower', { runHours: 8000, days: 365, contains: [OIL] }),
  rule(COMPRESSOR_OIL, 'compressor', { runHours: 2000, days: 365 }),
  rule(STARTER, 'compressor', { starts: 40_000, days: 730 }),
  rule(RECEIVER, 'compressor', { days: 365, whileLaidUp: 'runs on' }, FROM.practice),
];
