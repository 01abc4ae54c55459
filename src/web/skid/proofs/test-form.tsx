import { useState } from 'react';
import { api, query, type Schemas } from '../../api/client.js';
import { problemOf } from '../../api/problem.js';
import { number, written } from '../../format.js';
import type { RecordField } from '../../registry/record-fields.js';
import { RecordForm } from '../../registry/record-form.js';
import { fromLocalField, toLocalField } from '../../site-time.js';
import { Failed, Loading } from '../../ui/states.js';
import { useRequestKey } from '../../ui/use-request-key.js';
import { type UnitChoice, unitLabel, useUnits } from '../../units-choice.js';
import { proofWords } from '../../words/proofs.js';
import { requestWords } from '../../words/requests.js';
import { words } from '../../words.js';
import { Cautions } from './cautions.js';
import { inUnit } from './in-unit.js';

const say = proofWords.test;

type Setup = Schemas['IntegritySetupView'];

/** Records a pressure-decay test, and says how it was judged. */
export function TestForm({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const setup = query.useQuery('get', '/api/skids/{skidId}/integrity-setup', { params: { path: { skidId } } });
  if (setup.isPending) return <Loading what={requestWords.whatIntegrity} />;
  if (setup.isError && problemOf(setup.error).status !== 404)
    return <Failed what={requestWords.whatIntegrity} error={setup.error} again={() => void setup.refetch()} />;
  return <Form skidId={skidId} timeZone={timeZone} setup={setup.data ?? null} />;
}

function Form({ skidId, timeZone, setup }: { skidId: string; timeZone: string; setup: Setup | null }) {
  const units = useUnits();
  const keyOf = useRequestKey();
  const [now] = useState(() => toLocalField(Date.now(), timeZone));
  const most = setup?.highestTestKpa ?? null;
  return (
    <>
      <Cautions lines={say.cautions(most === null ? null : inUnit(most, units.pressure), setup === null ? null : written(setup.leastSettledMin))} />
      {setup === null && <p className="note-box">{say.noSetup}</p>}
      <RecordForm
        fields={fieldsOf(timeZone, now, units)}
        button={proofWords.writeDown}
        send={({ at, ...told }: Schemas['IntegrityTestDto']) => {
          const body = { ...told, at: fromLocalField(at ?? '', timeZone)?.toISOString() ?? at ?? null };
          return api.POST('/api/skids/{skidId}/integrity-tests', { params: { path: { skidId }, header: keyOf(body) }, body });
        }}
        result={(test: Schemas['IntegrityTestView']) => <Result test={test} />}
      />
    </>
  );
}

const fieldsOf = (timeZone: string, now: string, { pressure, temperature }: UnitChoice): readonly RecordField[] => {
  const figure = (name: string, label: string): RecordField => ({ name, label, type: 'number', required: true });
  const inPressure = (name: string, label: string): RecordField => ({ ...figure(name, proofWords.inUnit(label, unitLabel(pressure))), unit: pressure });
  return [
    { name: 'at', label: proofWords.at, hint: words.events.atHint(timeZone), type: 'time', required: true, start: now },
    figure('settledMinutes', say.settled),
    inPressure('startKpa', say.start),
    inPressure('endKpa', say.end),
    figure('minutes', say.minutes),
    { ...figure('temperatureC', proofWords.inUnit(say.temperature, unitLabel(temperature))), unit: temperature },
    { name: 'note', label: proofWords.note, type: 'lines' },
  ];
};

function Result({ test: { outcome, decayKpaMin, controlLimitKpaMin, lrv, reasons, nextSteps } }: { test: Schemas['IntegrityTestView'] }) {
  const limit = controlLimitKpaMin === null ? null : number(controlLimitKpaMin, 2);
  const figures = [
    // Of a failed test the first reason says by how much.
    outcome === 'failed' ? '' : decayKpaMin < 0 ? say.rose(number(-decayKpaMin, 2)) : say.fell(number(decayKpaMin, 2), limit),
    lrv === null ? '' : say.proves(number(lrv, 2)),
  ];
  return (
    <div className={outcome === 'passed' ? 'told' : 'told told-bad'}>
      <p>
        <strong>{say.outcomes[outcome] ?? outcome}</strong> {figures.filter(Boolean).join(' ')}
      </p>
      {reasons.length > 0 && (
        <ul className="listed">
          {reasons.map((reason) => (
            <li key={reason}>{reason}.</li>
          ))}
        </ul>
      )}
      {nextSteps.length > 0 && (
        <>
          <p>
            <strong>{say.next}</strong>
          </p>
          <ol className="listed">
            {nextSteps.map((step) => (
              <li key={step}>{step}.</li>
            ))}
          </ol>
          <p>{say.regulator}</p>
        </>
      )}
    </div>
  );
}
