import { useQueryClient } from '@tanstack/react-query';
import { api, type Schemas } from '../../api/client.js';
import { ifMatch } from '../../api/if-match.js';
import { Field } from '../../ui/field.js';
import { Trouble } from '../../ui/trouble.js';
import { useEntries } from '../../ui/use-entries.js';
import { planningWords } from '../../words/planning.js';
import { fieldAtPointer, rowField, rowsOf, withRows } from '../row-entries.js';
import { RowList } from '../row-list.js';
import { DaysField } from './days-field.js';
import { checkPerson, DAYS_OFF, ON_CALL, personBody, personLabel, personStart, SKILLS } from './person-fields.js';

const said = planningWords.person;

interface PersonFormProps {
  readonly person: Schemas['PersonPlanningView'];
  /** Nothing was changed since it was saved here */
  readonly isSaved: boolean;
  readonly onSaved: (version: number | undefined) => void;
}

export function PersonForm({ person, isSaved, onSaved }: PersonFormProps) {
  const client = useQueryClient();
  const form = useEntries<string, Schemas['PersonPlanningView']>({
    start: personStart(person),
    check: (entries) => {
      onSaved(undefined);
      return checkPerson(entries);
    },
    fieldAt: fieldAtPointer,
    labelOf: personLabel,
    send: (entries) =>
      api.PUT('/api/planning/people/{personId}', {
        params: { path: { personId: person.personId } },
        headers: ifMatch(person),
        body: personBody(entries),
      }),
    onDone: (answer) => {
      onSaved(answer?.version);
      void client.invalidateQueries();
    },
  });
  const input = (name: string, type: 'text' | 'time' | 'date', hint?: string) => (
    <Field key={name} {...form.field(name)} label={personLabel(name)} hint={hint}>
      {(props) => <input {...props} {...form.control(name)} type={type} autoComplete="off" />}
    </Field>
  );
  const setRows = (list: string, rows: readonly Readonly<Record<string, string>>[]) => form.setEntries((before) => withRows(before, list, rows));
  const skills = rowsOf(form.entries, 'skills', SKILLS);
  const onCall = rowsOf(form.entries, 'onCall', ON_CALL);
  const daysOff = rowsOf(form.entries, 'daysOff', DAYS_OFF);
  return (
    <>
      <Trouble troubles={form.troubles} attempt={form.attempt} />
      <form noValidate onSubmit={form.submit}>
        <section className="block">
          <h2>{said.home}</h2>
          <div className="fields">
            {input('latitude', 'text', said.latitudeHint)}
            {input('longitude', 'text', said.longitudeHint)}
          </div>
        </section>
        <section className="block">
          <h2>{said.hours}</h2>
          <DaysField
            {...form.field('workDays')}
            label={said.workDays}
            value={form.entries.workDays ?? ''}
            onChange={(workDays) => form.setEntries((before) => ({ ...before, workDays }))}
          />
          <div className="fields">
            {input('shiftFrom', 'time')}
            {input('regularUntil', 'time', said.regularHint)}
            {input('shiftUntil', 'time', said.shiftHint)}
            {input('mostNights', 'text', said.nightsHint)}
            {input('restHours', 'text', said.restHint)}
            {input('overtimeHoursAWeek', 'text', said.overtimeHint)}
          </div>
          <div className="fields">
            {input('breakMinutes', 'text', said.breakHint)}
            {input('breakFrom', 'time')}
            {input('breakUntil', 'time', said.breakUntilHint)}
          </div>
        </section>
        <RowList
          legend={said.skills}
          one={said.skill}
          none={said.noSkills}
          add={said.addSkill}
          count={skills.length}
          onAdd={() => setRows('skills', [...skills, { skill: '', lastOn: '' }])}
          onLeaveOut={(at) => setRows('skills', skills.toSpliced(at, 1))}
        >
          {(at) => [input(rowField('skills', at, 'skill'), 'text', said.skillHint), input(rowField('skills', at, 'lastOn'), 'date', said.lastOnHint)]}
        </RowList>
        <RowList
          legend={said.daysOff}
          one={said.daysOff}
          none={said.noDaysOff}
          add={said.addDaysOff}
          count={daysOff.length}
          onAdd={() => setRows('daysOff', [...daysOff, { from: '', until: '', reason: '' }])}
          onLeaveOut={(at) => setRows('daysOff', daysOff.toSpliced(at, 1))}
        >
          {(at) => DAYS_OFF.map((field) => input(rowField('daysOff', at, field), field === 'reason' ? 'text' : 'date'))}
        </RowList>
        <RowList
          legend={said.onCall}
          one={said.onCall}
          none={said.noOnCall}
          add={said.addOnCall}
          count={onCall.length}
          onAdd={() => setRows('onCall', [...onCall, { from: '', until: '' }])}
          onLeaveOut={(at) => setRows('onCall', onCall.toSpliced(at, 1))}
        >
          {(at) => ON_CALL.map((field) => input(rowField('onCall', at, field), 'date'))}
        </RowList>
        <p className="aside">{said.onCallNote}</p>
        <p className="row">
          <button type="submit" className="main-button" disabled={form.isSending}>
            {planningWords.save}
          </button>
          <span role="status" className="hint">
            {isSaved && planningWords.saved}
          </span>
        </p>
      </form>
    </>
  );
}
