import { useQueryClient } from '@tanstack/react-query';
import { useId, useRef, useState } from 'react';
import { isSignalCode, SIGNALS, type SignalCode } from '../../shared/signals.js';
import { api, type Schemas } from '../api/client.js';
import { moment, written } from '../format.js';
import { LoadReport } from '../loads/load-report.js';
import { useSession } from '../session/session.js';
import { toLocalField } from '../site-time.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useUnits } from '../units-choice.js';
import { loadReportWords } from '../words/load-report.js';
import { words } from '../words.js';
import { missingGauges, withAdded } from './added-gauges.js';
import { checkEntries, gaugeField, levelField, meterField, numberFields, type Sheet, startEntries, strengthField, toReading } from './hand-fields.js';
import { requestKey } from './request-key.js';
import { useDraft } from './use-draft.js';

/** The gauges of one skid, in the order of the sheet, each with its unit and what it showed last. */
export function HandForm({ sheet: asked }: { sheet: Sheet }) {
  const { name } = useSession();
  const client = useQueryClient();
  const units = useUnits();
  const { skidId, timeZone } = asked;
  const [start] = useState(() => startEntries(asked, toLocalField(Date.now(), timeZone), name));
  const [report, setReport] = useState<Schemas['LoadReportView'] | null>(null);
  const replaces = useRef(false);
  const fieldAt = useRef((pointer: string) => pointer);

  const form = useEntries<string, Schemas['LoadReportView']>({
    start,
    check: (entries) => checkEntries(withAdded(asked, entries, units), entries),
    fieldAt: (pointer) => fieldAt.current(pointer),
    labelOf: (field) => numberFields(withAdded(asked, { [field]: '' }, units)).find((each) => each.field === field)?.label ?? words.readings.at,
    send: (entries) => {
      const sent = toReading(withAdded(asked, entries, units), entries);
      fieldAt.current = sent.fieldAt;
      const body = { readings: [sent.reading], dryRun: false, replaceDiffering: replaces.current };
      return api.POST('/api/skids/{skidId}/hand-readings', { params: { path: { skidId }, header: { 'Idempotency-Key': requestKey(body) } }, body });
    },
    onDone: (answer) => {
      draft.forget();
      setReport(answer ?? null);
      void client.invalidateQueries();
    },
  });
  const draft = useDraft(`readings ${skidId}`, form.entries, start, (kept) => form.setEntries((before) => ({ ...before, ...kept })));

  const sheet = withAdded(asked, form.entries, units);
  if (report !== null) {
    return (
      <Sent
        report={report}
        timeZone={timeZone}
        onReplace={() => {
          replaces.current = true;
          return form.submit();
        }}
        onAnother={() => {
          replaces.current = false;
          form.setEntries(startEntries(asked, toLocalField(Date.now(), timeZone), name));
          setReport(null);
        }}
      />
    );
  }
  const last = (value: number | null, at: string | null) =>
    value === null ? words.readings.neverRead : words.readings.last(written(value), moment(at, timeZone));
  const decimal = (field: string, unit: string) => (props: object) => (
    <span className="with-unit">
      <input {...props} {...form.control(field)} className="short" inputMode="decimal" autoComplete="off" />
      <span>{unit}</span>
    </span>
  );
  return (
    <>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <Field {...form.field('at')} label={words.readings.at} hint={words.readings.atHint(timeZone)}>
          {(props) => <input {...props} {...form.control('at')} type="datetime-local" />}
        </Field>
        {sheet.asksMinutesSinceBackwash && (
          <Field {...form.field('minutesSinceBackwash')} label={words.readings.sinceBackwash} hint={words.readings.sinceBackwashHint}>
            {decimal('minutesSinceBackwash', 'min')}
          </Field>
        )}
        {sheet.gauges.map((gauge) => (
          <Field
            key={gauge.signal}
            {...form.field(gaugeField(gauge.signal))}
            label={gauge.label}
            hint={[last(gauge.lastValue, gauge.lastAt), gauge.caution].filter(Boolean).join(' ')}
          >
            {decimal(gaugeField(gauge.signal), gauge.unitLabel)}
          </Field>
        ))}
        <AnotherGauge sheet={sheet} onAdd={(signal) => form.setEntries((before) => ({ ...before, [gaugeField(signal)]: '' }))} />
        {sheet.meters.map((meter) => (
          <Field key={meter.meterId} {...form.field(meterField(meter.meterId))} label={meter.label} hint={last(meter.lastValue, meter.lastAt)}>
            {decimal(meterField(meter.meterId), meter.kind === 'run hours' ? 'h' : '')}
          </Field>
        ))}
        {sheet.tanks.map((tank) => (
          <fieldset key={tank.tankId} className="group">
            <legend>
              {tank.label}, {tank.chemical}
            </legend>
            <Field
              {...form.field(levelField(tank.tankId))}
              label={words.readings.level(tank.label)}
              hint={last(tank.lastLevelM === null ? null : tank.lastLevelM * 100, tank.lastAt)}
            >
              {decimal(levelField(tank.tankId), 'cm')}
            </Field>
            <Field {...form.field(strengthField(tank.tankId))} label={words.readings.strength(tank.label)} hint={words.readings.strengthHint}>
              {decimal(strengthField(tank.tankId), 'g/L')}
            </Field>
          </fieldset>
        ))}
        <Field {...form.field('readBy')} label={words.readings.readBy}>
          {(props) => <input {...props} {...form.control('readBy')} autoComplete="name" />}
        </Field>
        <Field {...form.field('note')} label={words.readings.note}>
          {(props) => <textarea {...props} {...form.control('note')} rows={3} maxLength={1000} />}
        </Field>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {words.readings.send}
          </button>
          <span role="status" className="hint">
            {form.isSending
              ? words.readings.sending
              : draft.state === 'saved'
                ? words.readings.saved
                : draft.state === 'restored'
                  ? words.readings.restored
                  : ''}
          </span>
        </div>
      </form>
    </>
  );
}

/** For a gauge that the sheet does not know of yet. */
function AnotherGauge({ sheet, onAdd }: { sheet: Sheet; onAdd: (signal: SignalCode) => void }) {
  const id = useId();
  return (
    <div className="field">
      <label htmlFor={id}>{words.readings.anotherGauge}</label>
      <select id={id} value="" onChange={(event) => isSignalCode(event.target.value) && onAdd(event.target.value)}>
        <option value="">{words.choose}</option>
        {missingGauges(sheet).map((code) => (
          <option key={code} value={code}>
            {SIGNALS[code].label}
          </option>
        ))}
      </select>
    </div>
  );
}

interface SentProps {
  readonly report: Schemas['LoadReportView'];
  readonly timeZone: string;
  readonly onReplace: () => void;
  readonly onAnother: () => void;
}

function Sent({ report, timeZone, onReplace, onAnother }: SentProps) {
  const differs = report.differing > report.replaced;
  return (
    <section className="block" aria-labelledby="sent">
      <div role="status">
        <h2 id="sent">{differs ? words.readings.differs : words.readings.sent}</h2>
      </div>
      {differs && <p>{words.readings.differsNote}</p>}
      <LoadReport report={report} timeZone={timeZone} />
      <div className="row">
        {differs && (
          <button type="button" onClick={onReplace}>
            {loadReportWords.replace}
          </button>
        )}
        <button type="button" onClick={onAnother}>
          {words.readings.another}
        </button>
      </div>
    </section>
  );
}
