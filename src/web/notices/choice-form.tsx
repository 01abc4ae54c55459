import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { Field } from '../ui/field.js';
import { Trouble } from '../ui/trouble.js';
import { useEntries } from '../ui/use-entries.js';
import { noticeWords as said } from '../words/notices.js';
import { words } from '../words.js';

const DIGESTS = ['off', 'daily', 'weekly'] as const;
const HOURS = Array.from({ length: 24 }, (_, hour) => String(hour));
const two = (hour: string) => `${hour.padStart(2, '0')}:00`;

/** How often a digest comes and when, and whether what cannot wait is told at once. */
export function ChoiceForm({ choice }: { choice: Schemas['NoticeChoiceView'] }) {
  const client = useQueryClient();
  const [isSaved, setSaved] = useState(false);
  const zone = choice.chosen ? choice.timeZone : Intl.DateTimeFormat().resolvedOptions().timeZone;
  const form = useEntries({
    start: { digest: choice.digest, hour: String(choice.hour), timeZone: zone, atOnce: choice.atOnce ? 'yes' : '' } as Record<
      'digest' | 'hour' | 'timeZone' | 'atOnce',
      string
    >,
    check: () => {
      setSaved(false);
      return {};
    },
    send: ({ digest, hour, timeZone, atOnce }) =>
      api.PUT('/api/me/notices', {
        body: { digest: DIGESTS.find((one) => one === digest) ?? 'off', hour: Number(hour), timeZone: timeZone.trim(), atOnce: atOnce === 'yes' },
      }),
    onDone: () => {
      setSaved(true);
      void client.invalidateQueries({ queryKey: ['get', '/api/me/notices'] });
    },
  });
  return (
    <>
      <p>{choice.mailIsSetUp ? said.to(choice.email) : said.noMail}</p>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <div className="fields">
          <Field {...form.field('digest')} label={said.digest}>
            {(props) => (
              <select {...props} {...form.control('digest')}>
                {DIGESTS.map((one) => (
                  <option key={one} value={one}>
                    {said.digests[one]}
                  </option>
                ))}
              </select>
            )}
          </Field>
          <Field {...form.field('hour')} label={said.hour} hint={said.hourHint}>
            {(props) => (
              <select {...props} {...form.control('hour')}>
                {HOURS.map((hour) => (
                  <option key={hour} value={hour}>
                    {two(hour)}
                  </option>
                ))}
              </select>
            )}
          </Field>
          <Field {...form.field('timeZone')} label={said.zone} hint={said.zoneHint}>
            {(props) => <input {...props} {...form.control('timeZone')} autoComplete="off" />}
          </Field>
          {choice.mayBeToldAtOnce && (
            <Field {...form.field('atOnce')} label={said.atOnce} hint={said.atOnceHint}>
              {(props) => (
                <select {...props} {...form.control('atOnce')}>
                  <option value="">{words.no}</option>
                  <option value="yes">{words.yes}</option>
                </select>
              )}
            </Field>
          )}
        </div>
        <div className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {said.save}
          </button>
          <span role="status" className="hint">
            {isSaved ? said.saved : ''}
          </span>
        </div>
      </form>
    </>
  );
}
