import '../styles/plan.css';
import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { SEVERITIES, SEVERITY_LABELS } from '../../shared/work.js';
import { api, query } from '../api/client.js';
import { toLocalField } from '../site-time.js';
import { Field } from '../ui/field.js';
import { PageHead } from '../ui/page-head.js';
import { SkidPlace } from '../ui/skid-place.js';
import { Loaded } from '../ui/states.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { useRequestKey } from '../ui/use-request-key.js';
import { breakdownWords } from '../words/breakdowns.js';
import { words } from '../words.js';
import { toMoments } from './site-moments.js';

const say = breakdownWords;

/** Somebody tells that a skid is broken down: how bad, what, and since when. */
export default function ReportBreakdownPage({ skidId }: { skidId: string }) {
  const skid = query.useQuery('get', '/api/skids/{id}', { params: { path: { id: skidId } } });
  return (
    <Loaded of={skid} what={words.skid.what}>
      {({ name, siteName, timeZone }) => (
        <>
          <PageHead over={<SkidPlace skidId={skidId} skidName={name} siteName={siteName} />} title={say.reportAt(name)}>
            <p className="aside">{say.atOnce}</p>
          </PageHead>
          <section className="block">
            <BreakdownForm skidId={skidId} timeZone={timeZone} />
          </section>
        </>
      )}
    </Loaded>
  );
}

function BreakdownForm({ skidId, timeZone }: { skidId: string; timeZone: string }) {
  const keyOf = useRequestKey();
  const client = useQueryClient();
  const [, go] = useLocation();
  const [now] = useState(() => toLocalField(Date.now(), timeZone));
  const positions = query.useQuery('get', '/api/positions', { params: { query: { skidId, limit: 200 } } });
  const form = useEntries({
    start: { severity: '', title: '', request: '', noticedAt: now, downFrom: '', positionId: '' },
    check: ({ severity, title }) => ({
      ...(severity === '' ? { severity: say.needSeverity } : {}),
      ...(title.trim() === '' ? { title: say.needTitle } : {}),
    }),
    send: ({ severity, title, request, noticedAt, downFrom, positionId }) => {
      const times = toMoments({ ...(noticedAt && { noticedAt }), ...(downFrom && { downFrom }) }, ['noticedAt', 'downFrom'], timeZone);
      const body = {
        skidId,
        severity: SEVERITIES.find((one) => one === severity) ?? 'can wait',
        title: title.trim(),
        request: request.trim(),
        positionId: positionId === '' ? null : positionId,
        ...times,
      };
      return api.POST('/api/breakdowns', { params: { header: keyOf(body) }, body });
    },
    onDone: (asked) => {
      void client.invalidateQueries();
      if (asked !== undefined) go(`/jobs/${asked.jobId}`);
    },
  });
  const severity = form.field('severity');
  return (
    <form noValidate className="narrow" onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <fieldset className={severity.problem === undefined ? 'group' : 'group field wrong'}>
        <legend>{say.severity}</legend>
        {severity.problem !== undefined && <p className="fix">{severity.problem}</p>}
        {SEVERITIES.map((each, at) => (
          <label key={each} className="tick">
            <input id={at === 0 ? severity.id : undefined} type="radio" {...form.control('severity')} value={each} checked={form.entries.severity === each} />
            <span>
              {SEVERITY_LABELS[each]}
              <small>{say.meaning[each]}</small>
            </span>
          </label>
        ))}
      </fieldset>
      <Field {...form.field('title')} label={say.whatFails} hint={say.whatHint}>
        {(props) => <input {...props} {...form.control('title')} autoComplete="off" maxLength={160} />}
      </Field>
      <Field {...form.field('request')} label={say.more}>
        {(props) => <textarea {...props} {...form.control('request')} rows={4} />}
      </Field>
      <Field {...form.field('positionId')} label={say.position}>
        {(props) => (
          <select {...props} {...form.control('positionId')}>
            <option value="">{say.wholeSkid}</option>
            {positions.data?.items.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field {...form.field('noticedAt')} label={say.noticedAt} hint={say.byZone(timeZone)}>
        {(props) => <input {...props} {...form.control('noticedAt')} type="datetime-local" />}
      </Field>
      <Field {...form.field('downFrom')} label={say.downFrom} hint={say.downHint}>
        {(props) => <input {...props} {...form.control('downFrom')} type="datetime-local" />}
      </Field>
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {say.reportNow}
        </button>
      </div>
    </form>
  );
}
