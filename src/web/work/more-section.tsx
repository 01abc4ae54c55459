import { useId } from 'react';
import { FAILURE_MECHANISMS, FAILURE_MODES } from '../../shared/failure-terms.js';
import { SERVICE_STATES } from '../../shared/service-states.js';
import { SIGNALS } from '../../shared/signals.js';
import { SEVERITIES, SEVERITY_LABELS } from '../../shared/work.js';
import { workWords } from '../words/work.js';
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
      <h2 id={headId}>{workWords.besides}</h2>
      <AddedRows list="followUps" title={workWords.followUps} addLabel={workWords.addFollowUp} rowName={workWords.followUp}>
        {(row) => <FollowUp row={row} />}
      </AddedRows>
      {draft.sheet.positions.length > 0 && (
        <>
          <AddedRows list="partsFitted" title={workWords.fitted} addLabel={workWords.addFitted} rowName={workWords.fittedOne}>
            {(row) => <FittedRow row={row} />}
          </AddedRows>
          <AddedRows list="partsRemoved" title={workWords.removed} addLabel={workWords.addRemoved} rowName={workWords.removed}>
            {(row) => <RemovedRow row={row} />}
          </AddedRows>
        </>
      )}
      <AddedRows list="readings" title={workWords.readings} addLabel={workWords.addReading} rowName={workWords.gauge}>
        {(row) => <Gauge row={row} />}
      </AddedRows>
      <AddedRows list="cleans" title={workWords.cleans} addLabel={workWords.addClean} rowName={workWords.clean} start={{ kind: 'CEB' }}>
        {(row) => <CleanRow row={row} />}
      </AddedRows>
      {hasModules && (
        <AddedRows list="fibreRepairs" title={workWords.repairs} addLabel={workWords.addRepair} rowName={workWords.repairs}>
          {(row) => <FibreRepair row={row} />}
        </AddedRows>
      )}
      <PickEntry
        field="serviceState"
        label={workWords.serviceState}
        options={SERVICE_STATES.map((state) => ({ value: state, label: state }))}
        empty={workWords.asBefore}
      />
    </section>
  );
}

function FollowUp({ row }: { row: string }) {
  const field = (part: string) => rowField('followUps', row, part);
  return (
    <>
      <TextEntry field={field('title')} label={workWords.followTitle} />
      <AreaEntry field={field('request')} label={workWords.followRequest} most={2000} />
      <PickEntry
        field={field('severity')}
        label={workWords.severity}
        options={SEVERITIES.map((value) => ({ value, label: SEVERITY_LABELS[value] }))}
        empty={workWords.noSeverity}
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
      <PickEntry field={field('signal')} label={workWords.gauge} options={SKID_SIGNALS} />
      <PickEntry field={field('unit')} label={workWords.unit} options={unitOptions(entry(field('signal')))} />
      <DecimalEntry field={field('value')} label={workWords.value} />
    </>
  );
}

function FibreRepair({ row }: { row: string }) {
  const { draft } = useSheetForm();
  const field = (part: string) => rowField('fibreRepairs', row, part);
  const modules = draft.sheet.positions.filter(({ kind }) => kind === 'module').map(({ id }) => id);
  return (
    <>
      <PickEntry field={field('positionId')} label={workWords.position} options={positionOptions(draft).filter(({ value }) => modules.includes(value))} />
      <DecimalEntry field={field('fibres')} label={workWords.fibres} />
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
      <h2 id={headId}>{workWords.breakdown}</h2>
      <TextEntry field="breakdown/downFrom" label={workWords.downFrom} type="datetime-local" hint={workWords.siteClock(timeZone)} />
      <TextEntry field="breakdown/restoredAt" label={workWords.restoredAt} type="datetime-local" hint={workWords.siteClock(timeZone)} />
      <DecimalEntry field="breakdown/repairMinutes" label={workWords.repairMinutes} />
      <PickEntry
        field="breakdown/failureMode"
        label={workWords.failureMode}
        options={FAILURE_MODES.map((mode) => ({ value: mode, label: mode }))}
        empty={workWords.notKnown}
      />
      <PickEntry
        field="breakdown/mechanism"
        label={workWords.mechanism}
        options={FAILURE_MECHANISMS.map(({ code, label, group }) => ({ value: code, label: `${label} (${group.toLowerCase()})` }))}
        empty={workWords.notKnown}
      />
      <AreaEntry field="breakdown/cause" label={workWords.cause} most={2000} />
      <AreaEntry field="breakdown/remedy" label={workWords.remedy} most={2000} />
    </section>
  );
}
