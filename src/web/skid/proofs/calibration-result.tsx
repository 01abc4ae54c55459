import { isUnitCode } from '../../../shared/units.js';
import { query, type Schemas } from '../../api/client.js';
import { written } from '../../format.js';
import { Loaded } from '../../ui/states.js';
import { unitLabel } from '../../units-choice.js';
import { proofWords } from '../../words/proofs.js';

const say = proofWords.calibration;

/** What a calibration found, and what rests on the readings that it puts in doubt. */
export function CalibrationResult({ calibration }: { calibration: Schemas['CalibrationView'] }) {
  const { id, positionName, unit, asFound, asLeft, worstAsFound, doubtful } = calibration;
  const error = `${written(Number(worstAsFound.toPrecision(6)))} ${isUnitCode(unit) ? unitLabel(unit) : unit}`.trim();
  const isGood = doubtful === null && asLeft === 'in tolerance';
  return (
    <div className={isGood ? 'told' : 'told told-bad'}>
      <p>
        <strong>{positionName}.</strong> {say.worst(say.found[asFound] ?? asFound, error)} {say.left[asLeft]}
      </p>
      {doubtful === null ? <p>{say.good}</p> : <Fed calibrationId={id} />}
    </div>
  );
}

function Fed({ calibrationId }: { calibrationId: string }) {
  const fed = query.useQuery('get', '/api/calibrations/{calibrationId}/fed', { params: { path: { calibrationId } } });
  return (
    <Loaded of={fed} what={say.whatFed}>
      {({ summary }) => (
        <ul className="listed">
          {summary.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </Loaded>
  );
}
