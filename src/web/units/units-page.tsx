import { useId } from 'react';
import { isUnitCode } from '../../shared/units.js';
import { PageHead } from '../ui/page-head.js';
import { type ChosenDimension, chooseUnit, UNIT_OPTIONS, unitLabel, useUnits } from '../units-choice.js';
import { words } from '../words.js';

export default function UnitsPage() {
  const id = useId();
  const units = useUnits();
  return (
    <div className="narrow">
      <PageHead title={words.units.title}>
        <p className="aside">{words.units.note}</p>
      </PageHead>
      {(Object.keys(UNIT_OPTIONS) as ChosenDimension[]).map((dimension) => (
        <div className="field" key={dimension}>
          <label htmlFor={`${id}${dimension}`}>{words.units[dimension]}</label>
          <select
            id={`${id}${dimension}`}
            value={units[dimension]}
            onChange={(event) => isUnitCode(event.target.value) && chooseUnit(dimension, event.target.value)}
          >
            {UNIT_OPTIONS[dimension].map((code) => (
              <option key={code} value={code}>
                {unitLabel(code)}
              </option>
            ))}
          </select>
        </div>
      ))}
    </div>
  );
}
