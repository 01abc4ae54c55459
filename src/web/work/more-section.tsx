import { useId } from 'react';
import { FAILURE_MECHANISMS, FAILURE_MODES } from '../../shared/failure-terms.js';
import { SERVICE_STATES } from '../../shared/service-states.js';
import { SIGNALS } from '../../shared/signals.js';
import { SEVERITIES, SEVERITY_LABELS } from '../../shared/work.js';
import { words } from '../words.js';
import { AddedRows } from './added-rows.js';
import { SIGNAL_OPTIONS, unitOptions } from './calibration-record.js';
import { CleanRow } from './clean-section.js';
import { rowField } from './draft.js';
import { FittedRow, positionOptions, RemovedRow } from './fitted-section.js';
import { AreaEntry, DecimalEntry, PickEntry, TextEntry, useSheetForm } from './sheet-form.js';

const SKID_SIGNALS = SIGNAL_OPTIONS.filter(({ value }) => !('ofPosition' in SIGNALS[value]));

/** What was done beside the tasks, and what is still to do. */
export function MoreSection() {
  const { draft } = useSheetForm();
  const headId = useId();
  const hasModules = draft.sheet.positions.some(({ kind }) => kind === 'module');
  return (
    <section className="block" aria-labelledby={headId}>
      <h2 id={headId}>{words.work.besides}</h2>
      <AddedRows list="followUps" title={words.work.followUps} addLabel={words.work.addFollowUp} rowName={words.work.followUp}>
        {(row) => <FollowUp row={row} />}
      </AddedRows>
      {draft.sheet.positions.length > 0 && (
        <>
          <AddedRows list="partsFitted" title={words.work.fitted} addLabel={words.work.addFitted} rowName={words.work.fittedOne}>
            {(row) => <FittedRow row={row} />}
          </AddedRows>
          <AddedRows list="partsRemoved" title={words.work.removed} addLabel={words.work.addRemoved} rowName={words.work.removed}>
            {(row) => <RemovedRow row={row} />}
          </AddedRows>
        </>
      )}
      <AddedRows list="readings" title={words.work.readings} addLabel={words.work.addReading} rowName={words.work.gauge}>
        {(row) => <Gauge row={row} />}
      </AddedRows>
      <AddedRows list="cleans" title={words.work.cleans} addLabel={words.work.addClean} rowName={words.work.clean} start={{ kind: 'CEB' }}>
        {(row) => <CleanRow row={row} />}
      </AddedRows>
      {hasModules && (
        <AddedRows list="fibreRepairs" title={words.work.repairs} addLabel={words.work.addRepair} rowName={words.work.repairs}>
          {(row) => <FibreRepair row={row} />}
        </AddedRows>
      )}
      <PickEntry
        field="serviceState"
        label={words.work.serviceState}
        options={SERVICE_STATES.map((state) => ({ value: state, label: state }))}
        empty={words.work.asBefore}
      />
    </section>
  );
}

function FollowUp({ row }: { row: string }) {
  const field = (part: string) => rowField('followUps', row, part);
  return (
    <>
      <TextEntry field={field('title')} label={words.work.followTitle} />
      <AreaEntry field={field('request')} label={words.work.followRequest} most={2000} />
      <PickEntry
        field={field('severity')}
        label={words.work.severity}
        options={SEVERITIES.map((value) => ({ value, label: SEVERITY_LABELS[value] }))}
        empty={words.work.noSeverity}
      />
    </>
  );
}

/** A gauge that no step asked for. */
function Gauge({ row }: { row: string }) {
  const { entry } = useSheetForm();
  const field = (part: string) => rowField('readings', row, part);
  return (
    <>
      <PickEntry field={field('signal')} label={words.work.gauge} options={SKID_SIGNALS} />
      <PickEntry field={field('unit')} label={words.work.unit} options={unitOptions(entry(field('signal')))} />
      <DecimalEntry field={field('value')} label={words.work.value} />
    </>
  );
}

function FibreRepair({ row }: { row: string }) {
  const { draft } = useSheetForm();
  const field = (part: string) => rowField('fibreRepairs', row, part);
  const modules = draft.sheet.positions.filter(({ kind }) => kind === 'module').map(({ id }) => id);
  return (
    <>
      <PickEntry field={field('positionId')} label={words.work.position} options={positionOptions(draft).filter(({ value }) => modules.includes(value))} />
      <DecimalEntry field={field('fibres')} label={words.work.fibres} />
      <TextEntry field={field('note')} label={words.readings.note} />
    </>
  );
}

/** Of a breakdown: when the skid stood, and what led to it, in the terms of ISO 14224. */
export function BreakdownSection() {
  const { draft } = useSheetForm();
  const headId = useId();
  const { timeZone, kind } = draft.sheet;
  if (kind !== 'breakdown') return null;
  return (
    <section className="block" aria-labelledby={headId}>
      <h2 id={headId}>{words.work.breakdown}</h2>
      <TextEntry field="breakdown/downFrom" label={words.work.downFrom} type="datetime-local" hint={words.work.siteClock(timeZone)} />
      <TextEntry field="breakdown/restoredAt" label={words.work.restoredAt} type="datetime-local" hint={words.work.siteClock(timeZone)} />
      <DecimalEntry field="breakdown/repairMinutes" label={words.work.repairMinutes} />
      <PickEntry
        field="breakdown/failureMode"
        label={words.work.failureMode}
        options={FAILURE_MODES.map((mode) => ({ value: mode, label: mode }))}
        empty={words.work.notKnown}
      />
      <PickEntry
        field="breakdown/mechanism"
        label={words.work.mechanism}
        options={FAILURE_MECHANISMS.map(({ code, label, group }) => ({ value: code, label: `${label} (${group.toLowerCase()})` }))}
        empty={words.work.notKnown}
      />
      <AreaEntry field="breakdown/cause" label={words.work.cause} most={2000} />
      <AreaEntry field="breakdown/remedy" label={words.work.remedy} most={2000} />
    </section>
  );
}
