import { POSITION_KINDS, type PositionKind } from './position-kinds.js';

/** What a rule attaches to: a kind of position, or the skid as a whole. */
export const RULE_PLACES = ['skid', ...POSITION_KINDS] as const;
export type RulePlace = 'skid' | PositionKind;

/** Limits that the outlook knows, and how a due names them. */
export const OUTLOOK_LIMITS = { permeability: 'permeability', 'cartridge dP': 'cartridge pressure drop' } as const;
export type OutlookLimit = keyof typeof OUTLOOK_LIMITS;

/** Figures of the daily condition that can make a task due, with the unit of the limit; shares are of 1. */
export const CONDITION_FIGURES = {
  'permeability share': { label: 'permeability as a share of what the last recovery clean gave back', unit: 'share' },
  'permeability share of new': { label: 'permeability as a share of that when new', unit: 'share' },
  'cartridge dP': { label: 'cartridge pressure drop', unit: 'kPa' },
  TMP: { label: 'transmembrane pressure', unit: 'kPa' },
  'feed turbidity': { label: 'feed turbidity', unit: 'NTU' },
} as const;
export type ConditionFigure = keyof typeof CONDITION_FIGURES;

/** What a rule does while its skid is laid up. Hours, starts and cycles stand still in every case. */
export const WHILE_LAID_UP = ['stands still', 'runs on', 'only then'] as const;
export type WhileLaidUp = (typeof WHILE_LAID_UP)[number];
