import { useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { api, type Schemas } from '../../api/client.js';
import { ifMatch } from '../../api/if-match.js';
import { newUuid } from '../../new-uuid.js';
import { Dialog } from '../../ui/dialog.js';
import { Field } from '../../ui/field.js';
import { Trouble } from '../../ui/trouble.js';
import { useEntries } from '../../ui/use-entries.js';
import { travelWords as said } from '../../words/travel.js';
import { words } from '../../words.js';
import type { Place } from './places.js';
import { checkRegion, regionBody, regionStart } from './travel-fields.js';

type Region = Schemas['TravelRegionView'];

interface RegionProps {
  /** Unset: a new one */
  readonly region: Region | undefined;
  readonly regions: readonly Region[];
  readonly sites: readonly Place[];
  readonly onClose: () => void;
}

/** Adds a region, or changes its roads and sites. */
export function RegionDialog({ onClose, ...about }: RegionProps) {
  return (
    <Dialog title={about.region === undefined ? said.addRegion : said.changeRegion(about.region.name)} onClose={onClose}>
      {(close) => <RegionForm {...about} close={close} />}
    </Dialog>
  );
}

function RegionForm({ region, regions, sites, close }: Omit<RegionProps, 'onClose'> & { close: () => void }) {
  const client = useQueryClient();
  const [id] = useState(() => region?.id ?? newUuid());
  const [siteIds, setSiteIds] = useState<readonly string[]>(region?.siteIds ?? []);
  const form = useEntries({
    start: regionStart(region),
    check: checkRegion,
    fieldAt: (pointer) => pointer.split('/')[1] ?? pointer,
    send: (entries) =>
      api.PUT('/api/planning/travel/regions/{id}', {
        params: { path: { id } },
        headers: ifMatch({ version: region?.version ?? 0 }),
        body: regionBody(entries, siteIds),
      }),
    onDone: () => {
      close();
      void client.invalidateQueries();
    },
  });
  const otherOf = (siteId: string) => regions.find((other) => other.id !== id && other.siteIds.includes(siteId));
  const toggle = (siteId: string) => setSiteIds((before) => (before.includes(siteId) ? before.filter((each) => each !== siteId) : [...before, siteId]));
  const sitesField = form.field('siteIds');
  return (
    <form noValidate onSubmit={form.submit}>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <Field {...form.field('name')} label={said.name}>
        {(props) => <input {...props} {...form.control('name')} autoComplete="off" />}
      </Field>
      <Field {...form.field('factor')} label={said.factor} hint={said.factorHint}>
        {(props) => <input {...props} {...form.control('factor')} className="short" inputMode="decimal" autoComplete="off" />}
      </Field>
      <div className="fields">
        <Field {...form.field('nearKmh')} label={said.nearKmh} hint={said.nearHint}>
          {(props) => <input {...props} {...form.control('nearKmh')} className="short" inputMode="decimal" autoComplete="off" />}
        </Field>
        <Field {...form.field('farKmh')} label={said.farKmh}>
          {(props) => <input {...props} {...form.control('farKmh')} className="short" inputMode="decimal" autoComplete="off" />}
        </Field>
      </div>
      {region?.isUsual !== true && (
        <fieldset id={sitesField.id} tabIndex={-1} className={sitesField.problem === undefined ? 'group crew' : 'group crew field wrong'}>
          <legend>{said.sitesOfRegion}</legend>
          {sitesField.problem !== undefined && <p className="fix">{sitesField.problem}</p>}
          {sites.map(({ id: siteId, name }) => {
            const other = otherOf(siteId);
            return (
              <label key={siteId} className="tick">
                <input type="checkbox" checked={siteIds.includes(siteId)} disabled={other !== undefined} onChange={() => toggle(siteId)} />
                <span>
                  {name}
                  {other !== undefined && <small>{said.otherRegion(other.name)}</small>}
                </span>
              </label>
            );
          })}
        </fieldset>
      )}
      <div className="row">
        <button type="submit" className="main-button" disabled={form.isSending}>
          {said.save}
        </button>
        <button type="button" onClick={close}>
          {words.cancel}
        </button>
      </div>
    </form>
  );
}
