import { describe, expect, test } from '@jest/globals';
import { bodyOf, type RecordField, settled } from './record-fields.js';

const FIELDS: readonly RecordField[] = [
  { name: 'chemical', label: 'Chemical' },
  {
    name: 'basis',
    label: 'Basis',
    optionsOf: ({ chemical }) => (chemical === 'acid' ? ['g/L', 'wt %'] : ['g/L', 'trade %']).map((value) => ({ value, label: value })),
  },
];

describe('a choice that depends on another field', () => {
  test('stays while it is offered, and gives way to the first that is where it is not', () => {
    expect(settled(FIELDS, { chemical: 'hypochlorite', basis: 'trade %' })).toEqual({ chemical: 'hypochlorite', basis: 'trade %' });
    expect(settled(FIELDS, { chemical: 'acid', basis: 'trade %' })).toEqual({ chemical: 'acid', basis: 'g/L' });
    expect(bodyOf(FIELDS, settled(FIELDS, { chemical: 'acid', basis: 'wt %' }))).toEqual({ chemical: 'acid', basis: 'wt %' });
  });
});
