import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { isSignalCode, SIGNALS, type SignalCode } from '../../../shared/signals.js';
import { UNITS } from '../../../shared/units.js';
import { api, query, type Schemas } from '../../api/client.js';
import { fromLocalField, toLocalField } from '../../site-time.js';
import { Field } from '../../ui/field.js';
import { Loaded } from '../../ui/states.js';
import { Trouble } from '../../ui/trouble.js';
import { useEntries } from '../../ui/use-entries.js';
import { useRequestKey } from '../../ui/use-request-key.js';
import { unitsOf } from '../../unit-options.js';
import { unitLabel, useUnits } from '../../units-choice.js';
import { proofWords } from '../../words/proofs.js';
import { words } from '../../words.js';
import { bodyOf, checkCalibration, FIELD_LABELS, POINT_PARTS, pointField, startOf } from './calibration-fields.js';
import { CalibrationResult } from './calibration-result.js';
import { Cautions } from './cautions.js';
import { PointRow } from './point-row.js';

const say = proofWords.calibration;
const MOST_POINTS = 20;
const COUNTED = ['count', 'state', 'duration'];

type Position = Schemas['PositionView'];

/** Records that an instrument was compared with a reference, and says which readings that puts in doubt. */
export function CalibrationForm({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const positions = query.useQuery('get', '/api/positions', { params: { query: { skidId, limit: 200 } } });
  return (
    <>
      <Cautions lines={say.cautions} />
      <Loaded of={positions} what={words.parts.what}>
        {({ items }) => {
          const transmitters = items.filter(({ kind, endedOn }) => kind === 'transmitter' && endedOn === null);
          return transmitters.length === 0 ? <p>{say.noTransmitters}</p> : <Form transmitters={transmitters} timeZone={timeZone} />;
        }}
      </Loaded>
    </>
  );
}

function Form({ transmitters, timeZone }: { transmitters: readonly Position[]; timeZone: string }) {
  const client = useQueryClient();
  const keyOf = useRequestKey();
  const chosen = useUnits();
  const [start] = useState(() => startOf(toLocalField(Date.now(), timeZone)));
  const [points, setPoints] = useState(3);
  const [done, setDone] = useState<Schemas['CalibrationView']>();
  const form = useEntries<string, Schemas['CalibrationView']>({
    start,
    check: (entries) => checkCalibration(entries, points),
    fieldAt: (pointer) => pointer.replace('#/', ''),
    labelOf: (name) => FIELD_LABELS[name] ?? '',
    send: (entries) => {
      const { positionId, ...told } = bodyOf(entries, points);
      const body = { ...told, at: fromLocalField(entries.at ?? '', timeZone)?.toISOString() ?? null };
      return api.POST('/api/positions/{positionId}/calibrations', { params: { path: { positionId }, header: keyOf(body) }, body });
    },
    onDone: (calibration) => {
      setDone(calibration);
      setPoints(3);
      form.setEntries(start);
      void client.invalidateQueries();
    },
  });
  const { entries } = form;
  const registered = (positionId: string | undefined) => transmitters.find(({ id }) => id === positionId)?.signal ?? '';
  const signal = entries.signal || registered(entries.positionId);
  const dimension = isSignalCode(signal) ? SIGNALS[signal].dimension : undefined;
  const units = dimension === undefined ? [] : unitsOf(dimension);
  const unit = units.find((code) => code === entries.unit);
  const choose = (change: Readonly<Record<string, string>>) =>
    form.setEntries((before) => {
      const after = { ...before, ...change };
      const measured = after.signal || registered(after.positionId);
      return isSignalCode(measured) ? { ...after, unit: usualUnit(measured, chosen) } : after;
    });
  const text = (name: string, label: string, more: { hint?: string; type?: string; mode?: 'decimal' } = {}) => (
    <Field {...form.field(name)} label={label} hint={more.hint}>
      {(props) => <input {...props} {...form.control(name)} type={more.type ?? 'text'} inputMode={more.mode} autoComplete="off" maxLength={200} />}
    </Field>
  );
  return (
    <>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <div className="fields">
          <Field {...form.field('positionId')} label={say.position}>
            {(props) => (
              <select {...props} {...form.control('positionId')} onChange={({ target }) => choose({ positionId: target.value, signal: '' })}>
                <option value="">{words.choose}</option>
                {transmitters.map(({ id, name }) => (
                  <option key={id} value={id}>
                    {name}
                  </option>
                ))}
              </select>
            )}
          </Field>
          <Field {...form.field('signal')} label={say.signal}>
            {(props) => (
              <select {...props} {...form.control('signal')} value={signal} onChange={({ target }) => choose({ signal: target.value })}>
                <option value="">{words.choose}</option>
                {Object.entries(SIGNALS).map(([code, kind]) =>
                  COUNTED.includes(kind.dimension) ? null : (
                    <option key={code} value={code}>
                      {kind.label}
                    </option>
                  ),
                )}
              </select>
            )}
          </Field>
          <Field {...form.field('unit')} label={say.unit}>
            {(props) => (
              <select {...props} {...form.control('unit')}>
                <option value="">{words.choose}</option>
                {units.map((code) => (
                  <option key={code} value={code}>
                    {UNITS[code].label}
                  </option>
                ))}
              </select>
            )}
          </Field>
          {text('tolerance', proofWords.inUnit(say.tolerance, unit === undefined ? '' : unitLabel(unit)), { mode: 'decimal' })}
          {text('at', proofWords.at, { type: 'datetime-local', hint: words.events.atHint(timeZone) })}
          {text('referenceInstrument', say.reference)}
          {text('certificateNo', say.certificate)}
          {text('nextOn', say.nextOn, { type: 'date' })}
        </div>
        <div className="points">
          {Array.from({ length: points }, (_, at) => (
            <PointRow
              key={pointField(at, 'reference')}
              no={at + 1}
              unit={unit === undefined ? '' : unitLabel(unit)}
              tolerance={entries.tolerance ?? ''}
              entries={entries}
              fields={POINT_PARTS.map((part) => ({ part, field: form.field(pointField(at, part)), control: form.control(pointField(at, part)) }))}
            />
          ))}
        </div>
        <div className="row">
          <button type="button" disabled={points >= MOST_POINTS} onClick={() => setPoints((before) => before + 1)}>
            {say.addPoint}
          </button>
        </div>
        <Field {...form.field('note')} label={proofWords.note}>
          {(props) => <textarea {...props} {...form.control('note')} rows={2} maxLength={1000} />}
        </Field>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {proofWords.writeDown}
          </button>
        </div>
      </form>
      <div role="status">{done !== undefined && <CalibrationResult calibration={done} />}</div>
    </>
  );
}

/** The unit that the reader chose where there is a choice, else the stored one. */
const usualUnit = (signal: SignalCode, chosen: Readonly<Record<string, string>>): string => chosen[SIGNALS[signal].dimension] ?? SIGNALS[signal].unit;
