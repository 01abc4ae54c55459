import { useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { day, written } from '../format.js';
import { SayDialog } from '../ui/say-dialog.js';
import { type Column, Sheet } from '../ui/sheet.js';
import { skidRuleWords as said } from '../words/skid-rules.js';
import { OVERRIDABLE } from './override-entries.js';
import { placeName } from './rule-entries.js';

type Override = Schemas['OverrideView'];

const onDay = (at: string) => day(at.slice(0, 10));

/** What an override changes, in words. */
const differenceOf = (override: Override): string =>
  override.off
    ? said.isOff
    : OVERRIDABLE.flatMap((field) => {
        const value = override[field];
        return value === null ? [] : `${written(value)} ${said.limit[field]}`;
      }).join(', ');

/** What is different at this skid with its reason, what holds first; what has ended stays to be read. */
export function OverrideList({ skidId, overrides, mayEdit }: { skidId: string; overrides: readonly Override[]; mayEdit: boolean }) {
  const [ending, setEnding] = useState<Override>();
  const columns: readonly Column<Override>[] = [
    { name: said.task, cell: ({ task }) => task },
    { name: said.where, cell: ({ positionName, positionKind }) => positionName ?? said.everyOne(placeName(positionKind), positionKind === 'skid') },
    { name: said.difference, cell: differenceOf },
    { name: said.reason, wide: true, cell: ({ reason }) => reason },
    { name: said.by, cell: ({ at, by }) => said.byWhom(onDay(at), by) },
    {
      name: said.until,
      cell: (override) =>
        override.endedAt !== null ? (
          said.byWhom(onDay(override.endedAt), override.endedBy ?? '')
        ) : mayEdit ? (
          <button type="button" onClick={() => setEnding(override)}>
            {said.endOverride} <span className="unseen">{[override.task, override.positionName].filter(Boolean).join(', ')}</span>
          </button>
        ) : (
          said.holds
        ),
    },
  ];
  return (
    <section className="block">
      <h2>{said.overrides}</h2>
      {overrides.length === 0 ? (
        <p className="aside">{said.noOverrides}</p>
      ) : (
        <Sheet caption={said.overrides} columns={columns} rows={overrides} keyOf={({ id }) => id} />
      )}
      {ending !== undefined && (
        <SayDialog
          title={said.endOverrideTitle(ending.task)}
          button={said.endOverride}
          send={() => api.POST('/api/skids/{id}/rules/overrides/{overrideId}/end', { params: { path: { id: skidId, overrideId: ending.id } } })}
          onClose={() => setEnding(undefined)}
        >
          <p>{said.endOverrideText}</p>
        </SayDialog>
      )}
    </section>
  );
}
