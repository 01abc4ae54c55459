import { Link } from 'wouter';
import { isSignalCode, SIGNALS } from '../../shared/signals.js';
import { api, query, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { day, number } from '../format.js';
import { PageHead } from '../ui/page-head.js';
import { Loaded } from '../ui/states.js';
import { registryWords } from '../words/registry.js';
import { words } from '../words.js';
import { AREA_FIELDS, POSITION_FIELDS, SKID_EDIT_FIELDS, STATE_FIELDS, TANK_FIELDS } from './fields.js';
import type { RecordField } from './record-fields.js';
import { RecordForm } from './record-form.js';

/** What is registered of one skid: itself, its membrane area, its positions and its tanks. */
export default function SkidRecordPage({ skidId }: { skidId: string }) {
  const path = { id: skidId };
  const skid = query.useQuery('get', '/api/skids/{id}', { params: { path } });
  return (
    <Loaded of={skid} what={words.skid.what}>
      {(record) => (
        <>
          <PageHead
            title={record.name}
            over={<Link href={`/registry/sites/${record.siteId}`}>{`${record.siteName}, ${record.clientName}`}</Link>}
            facts={[{ name: words.skid.state, value: record.serviceState }]}
          >
            <p>
              <Link href={`/skids/${skidId}`}>{registryWords.toSkid}</Link>
            </p>
          </PageHead>
          <section className="block">
            <h2>{registryWords.edit}</h2>
            <RecordForm
              key={record.version}
              fields={SKID_EDIT_FIELDS}
              record={record}
              button={registryWords.save}
              send={(body: Schemas['SkidEditDto']) => api.PATCH('/api/skids/{id}', { params: { path }, headers: ifMatch(record), body })}
            />
          </section>
          <section className="block">
            <h2>{registryWords.areas}</h2>
            <ul className="plain">
              {record.areas.map((area) => (
                <li key={area.fromDay}>{registryWords.areaFrom(day(area.fromDay), number(area.areaM2, 1))}</li>
              ))}
            </ul>
            <RecordForm
              fields={AREA_FIELDS}
              button={registryWords.add}
              send={(body: Schemas['SkidAreaDto']) => api.PUT('/api/skids/{id}/areas', { params: { path }, body })}
            />
          </section>
          <section className="block">
            <h2>{words.skid.state}</h2>
            <RecordForm
              fields={STATE_FIELDS}
              button={registryWords.changeState}
              send={(body: Schemas['ServiceStateDto']) => api.POST('/api/skids/{id}/service-state', { params: { path }, body })}
            />
          </section>
          <Positions skidId={skidId} />
          <Tanks skidId={skidId} siteId={record.siteId} />
        </>
      )}
    </Loaded>
  );
}

function Positions({ skidId }: { skidId: string }) {
  const positions = query.useQuery('get', '/api/positions', { params: { query: { skidId, limit: 200 } } });
  return (
    <section className="block">
      <h2>{registryWords.positions}</h2>
      <Loaded of={positions} what={registryWords.positions.toLowerCase()}>
        {(list) => {
          const within = { value: '', label: words.none };
          const parent: RecordField = {
            name: 'parentId',
            label: registryWords.fields.parent,
            options: [within, ...list.items.filter((each) => each.parentId === null).map(({ id, name }) => ({ value: id, label: name }))],
          };
          return (
            <>
              {list.items.map((position) => (
                <PositionRecord key={position.id} position={position} parent={parent} />
              ))}
              <h3>{registryWords.newPosition}</h3>
              <RecordForm
                fields={[...POSITION_FIELDS, parent]}
                button={registryWords.add}
                send={(body: Omit<Schemas['PositionDto'], 'skidId'>) => api.POST('/api/positions', { body: { ...body, skidId } })}
              />
            </>
          );
        }}
      </Loaded>
    </section>
  );
}

function PositionRecord({ position, parent }: { position: Schemas['PositionView']; parent: RecordField }) {
  const withoutItself = { ...parent, options: parent.options?.filter(({ value }) => value !== position.id) ?? [] };
  return (
    <details className="more">
      <summary>
        {[`${position.name} (${position.kind})`, position.signal !== null && isSignalCode(position.signal) ? SIGNALS[position.signal].label : '']
          .filter(Boolean)
          .join(', ')}
      </summary>
      <RecordForm
        key={position.version}
        fields={[...POSITION_FIELDS, withoutItself]}
        record={position}
        button={registryWords.save}
        send={(body: Schemas['PositionEditDto']) =>
          api.PATCH('/api/positions/{id}', { params: { path: { id: position.id } }, headers: ifMatch(position), body })
        }
      />
    </details>
  );
}

/** What a tank is filled with and from; the tanks of the site and the chemicals of the store to choose from. */
function useFilling(siteId: string, ownId?: string): readonly RecordField[] {
  const chemicals = query.useQuery('get', '/api/items', { params: { query: { kind: 'chemical', limit: 200 } } });
  const tanks = query.useQuery('get', '/api/tanks/cover', { params: { query: { siteId, limit: 200 } } });
  const items = (chemicals.data?.items ?? []).map(({ id, code, name }) => ({ value: id, label: `${code} ${name}` }));
  const feeders = (tanks.data?.items ?? []).filter(({ tankId }) => tankId !== ownId);
  return [
    { name: 'itemId', label: registryWords.fields.item, options: [{ value: '', label: registryWords.noItem }, ...items] },
    {
      name: 'fedFromId',
      label: registryWords.fields.fedFrom,
      hint: registryWords.hints.fedFrom,
      options: [
        { value: '', label: registryWords.notFed },
        ...feeders.map(({ tankId, tankName, skidName }) => ({ value: tankId, label: `${tankName}, ${skidName}` })),
      ],
    },
  ];
}

function TankRecord({ tank, siteId }: { tank: Schemas['TankView']; siteId: string }) {
  const filling = useFilling(siteId, tank.id);
  return (
    <details className="more">
      <summary>{`${tank.name}, ${tank.chemical}`}</summary>
      <RecordForm
        key={tank.version}
        fields={[...TANK_FIELDS, ...filling]}
        record={tank}
        button={registryWords.save}
        send={(body: Schemas['TankEditDto']) => api.PATCH('/api/tanks/{id}', { params: { path: { id: tank.id } }, headers: ifMatch(tank), body })}
      />
    </details>
  );
}

function Tanks({ skidId, siteId }: { skidId: string; siteId: string }) {
  const filling = useFilling(siteId);
  const tanks = query.useQuery('get', '/api/tanks', { params: { query: { skidId, limit: 200 } } });
  return (
    <section className="block">
      <h2>{words.chemicals.ofSkid}</h2>
      <Loaded of={tanks} what={words.chemicals.what}>
        {(list) => (
          <>
            {list.items.map((tank) => (
              <TankRecord key={tank.id} tank={tank} siteId={siteId} />
            ))}
            <h3>{registryWords.newTank}</h3>
            <RecordForm
              fields={[...TANK_FIELDS, ...filling]}
              button={registryWords.add}
              send={(body: Omit<Schemas['TankDto'], 'skidId'>) => api.POST('/api/tanks', { body: { ...body, skidId } })}
            />
          </>
        )}
      </Loaded>
    </section>
  );
}
