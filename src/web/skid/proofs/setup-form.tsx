import { useState } from 'react';
import { api, query, type Schemas } from '../../api/client.js';
import { ifMatch } from '../../api/if-match.js';
import { problemOf } from '../../api/problem.js';
import type { RecordField } from '../../registry/record-fields.js';
import { RecordForm } from '../../registry/record-form.js';
import { Failed, Loading } from '../../ui/states.js';
import { type UnitChoice, unitLabel, useUnits } from '../../units-choice.js';
import { proofWords } from '../../words/proofs.js';
import { requestWords } from '../../words/requests.js';
import { inUnit } from './in-unit.js';

const say = proofWords.setup;

/** What the integrity tests of the skid are judged with, for the manager to enter and to change. */
export function SetupForm({ skidId }: { skidId: string }) {
  const units = useUnits();
  const [said, setSaid] = useState('');
  const setup = query.useQuery('get', '/api/skids/{skidId}/integrity-setup', { params: { path: { skidId } } });
  if (setup.isPending) return <Loading what={requestWords.whatIntegrity} />;
  if (setup.isError && problemOf(setup.error).status !== 404)
    return <Failed what={requestWords.whatIntegrity} error={setup.error} again={() => void setup.refetch()} />;
  const record = setup.data;
  const save = async (body: Schemas['IntegritySetupDto']) => {
    const answer = await api.PUT('/api/skids/{skidId}/integrity-setup', {
      params: { path: { skidId } },
      ...(record === undefined ? {} : { headers: ifMatch(record) }),
      body,
    });
    setSaid(!answer.response.ok ? '' : record === undefined ? say.savedFirst : say.saved);
    return answer;
  };
  return (
    <>
      <p className="note-box">{say.note}</p>
      <RecordForm
        key={`${record?.version} ${units.pressure} ${units.flow}`}
        fields={fieldsOf(units)}
        {...(record === undefined ? {} : { record })}
        button={say.save}
        send={save}
        result={() => null}
      />
      {/* The form begins anew with what was saved; this stays. */}
      <div role="status">{said !== '' && <p className="told">{said}</p>}</div>
    </>
  );
}

function fieldsOf({ pressure, flow }: UnitChoice): readonly RecordField[] {
  const figure = (name: string, label: string, more: Partial<RecordField> = {}): RecordField => ({ name, label, type: 'number', ...more });
  const inPressure = (name: string, label: string, more: Partial<RecordField> = {}) =>
    figure(name, proofWords.inUnit(label, unitLabel(pressure)), { unit: pressure, ...more });
  return [
    inPressure('highestTestKpa', say.highestTest, { hint: say.highestTestHint }),
    figure('creditLrv', say.credit, { hint: say.creditHint, required: true }),
    figure('designFlowM3h', proofWords.inUnit(say.designFlow, unitLabel(flow)), { unit: flow, required: true }),
    figure('airVolumeL', say.airVolume, { hint: say.airVolumeHint, required: true }),
    inPressure('highestTmpKpa', say.highestTmp, { hint: say.highestTmpHint, required: true }),
    inPressure('backPressureKpa', say.backPressure, { hint: say.empty('0'), empty: 'left out' }),
    figure('leastSettledMin', say.leastSettled, { hint: say.empty('5'), empty: 'left out' }),
    inPressure('gaugeStepKpa', say.gaugeStep, { hint: say.empty(inUnit(0.1, pressure)), empty: 'left out' }),
    figure('baselineKpaMin', say.baseline, { hint: say.baselineHint }),
    figure('fibresPerModule', say.fibres),
    figure('moduleAreaM2', say.moduleArea, { hint: say.moduleAreaHint }),
    figure('oxidantLimitPpmH', say.oxidant, { hint: say.oxidantHint }),
    figure('airLiquidRatio', say.ratio, { hint: say.ratioHint }),
    figure('netExpansion', say.expansion, { hint: say.empty('0.7'), empty: 'left out' }),
    figure('concentration', say.concentration, { hint: say.concentrationHint, empty: 'left out' }),
    figure('poreShape', say.poreShape, { hint: say.poreHint, empty: 'left out' }),
    figure('contactAngleDeg', say.contactAngle, { hint: say.angleHint, empty: 'left out' }),
    inPressure('atmosphericKpa', say.atmospheric, { hint: say.empty(inUnit(101.325, pressure)), empty: 'left out' }),
  ];
}
