/** Why a cycle says nothing about the membrane or about the cartridge. */
export type LeftOutReason =
  | 'flagged doubtful'
  | 'too short'
  | 'no flow'
  | 'low flow'
  | 'flux off set point'
  | 'no membrane area'
  | 'no pressure'
  | 'tmp out of range'
  | 'no temperature'
  | 'temperature out of range'
  | 'permeability not plausible'
  | 'no pressure drop'
  | 'pressure drop below zero'
  | 'no reference flow';

/** The reason as a person reads it behind a count of cycles: "12 cycles: no temperature, so not normalised". */
export const leftOutText: Readonly<Record<LeftOutReason, string>> = {
  'flagged doubtful': 'a value was flagged as doubtful',
  'too short': 'too short to settle',
  'no flow': 'no filtrate flow measured',
  'low flow': 'flow too low for a sure pressure',
  'flux off set point': 'flux too far from its set point to compare',
  'no membrane area': 'no membrane area in use that day',
  'no pressure': 'a pressure was not measured',
  'tmp out of range': 'transmembrane pressure out of range',
  'no temperature': 'no temperature, so not normalised',
  'temperature out of range': 'temperature out of range',
  'permeability not plausible': 'permeability not plausible: check units and area',
  'no pressure drop': 'no cartridge pressure drop measured',
  'pressure drop below zero': 'cartridge pressure drop below zero: check the transmitters',
  'no reference flow': 'no reference flow is set for the cartridges',
};
