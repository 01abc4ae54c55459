import { useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useId, useState } from 'react';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { type Problem, problemOf } from '../api/problem.js';
import { TIME_FORMATS } from '../loads/time-formats.js';
import { Trouble } from '../ui/trouble.js';
import { profileWords } from '../words/profiles.js';
import { registryWords } from '../words/registry.js';
import { ColumnTable } from './column-table.js';
import { CycleSettings } from './cycle-settings.js';
import { type Definition, type Kind, NO_COLUMN, PLAIN, wordsAsText, wordsFromText } from './definition.js';
import { headerOfFile } from './header-of-file.js';

const KINDS = ['samples', 'cycles', 'events', 'hand'] as const;
const DELIMITERS = ['auto', ',', ';', 'tab'] as const;
const ENCODINGS = ['utf-8', 'windows-1252', 'utf-16le'] as const;

interface ProfileFormProps {
  readonly skidId: string;
  /** Unset: a new one */
  readonly profile?: Schemas['ProfileView'];
  readonly positions: readonly Schemas['PositionView'][];
  readonly onSaved: (profile: Schemas['ProfileView']) => void;
}

/** How the exports of one skid are to be read. */
export function ProfileForm({ skidId, profile, positions, onSaved }: ProfileFormProps) {
  const prefix = useId();
  const client = useQueryClient();
  const [name, setName] = useState(profile?.name ?? '');
  const [kind, setKind] = useState<Kind>(profile?.kind ?? 'samples');
  const [definition, setDefinition] = useState<Definition>(profile?.definition ?? PLAIN);
  const [wordsText, setWords] = useState(wordsAsText(definition.words));
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const [attempt, setAttempt] = useState(0);
  const [said, setSaid] = useState('');
  const { segmentation, gates } = definition;
  const change = (fields: Partial<Definition>) => setDefinition((before) => ({ ...before, ...fields }));

  const faults = (refusal?.errors ?? []).map(({ pointer, message }) => ({ path: pointer.replace(/^#\/(definition\/)?/, ''), message }));
  const idOf = (path: string) => `${prefix}${path.replaceAll('/', '-')}`;
  const control = (path: string) => ({ id: idOf(path), 'aria-invalid': faults.some((fault) => fault.path === path) ? (true as const) : undefined });

  const save = async (event: FormEvent) => {
    event.preventDefault();
    const body = { name: name.trim(), definition: { ...definition, words: wordsFromText(wordsText) } as Schemas['ProfileDefinitionDto'] };
    const { data, error } = await (profile === undefined
      ? api.POST('/api/log-profiles', { body: { ...body, skidId, kind } })
      : api.PATCH('/api/log-profiles/{id}', { params: { path: { id: profile.id } }, headers: ifMatch(profile), body })
    ).catch((thrown: unknown) => ({ data: undefined, error: thrown }));
    setAttempt((count) => count + 1);
    setRefusal(data === undefined ? problemOf(error) : null);
    setSaid(data === undefined ? '' : registryWords.saved);
    if (data === undefined) return;
    await client.invalidateQueries({ queryKey: ['get', '/api/log-profiles'] });
    onSaved(data);
  };

  const text = (path: 'timeColumn' | 'timeFormat' | 'timeZone', label: string, hint?: string, list?: string) => (
    <div className="field">
      <label htmlFor={idOf(path)}>{label}</label>
      {hint !== undefined && (
        <p className="hint" id={`${idOf(path)}-hint`}>
          {hint}
        </p>
      )}
      <input
        {...control(path)}
        aria-describedby={hint === undefined ? undefined : `${idOf(path)}-hint`}
        list={list}
        value={definition[path]}
        onChange={(event) => change({ [path]: event.target.value })}
      />
    </div>
  );
  const choice = <Value extends string>(path: string, label: string, values: readonly Value[], value: Value, onChoose: (value: Value) => void) => (
    <div className="field">
      <label htmlFor={idOf(path)}>{label}</label>
      <select {...control(path)} value={value} onChange={(event) => onChoose(values.find((one) => one === event.target.value) ?? value)}>
        {values.map((one) => (
          <option key={one} value={one}>
            {(profileWords.values as Record<string, string>)[one] ?? one}
          </option>
        ))}
      </select>
    </div>
  );

  return (
    <>
      {refusal !== null && (
        <Trouble
          attempt={attempt}
          troubles={faults.length === 0 ? [{ message: refusal.title }] : faults.map(({ path, message }) => ({ id: idOf(path), message }))}
        />
      )}
      <form noValidate onSubmit={(event) => void save(event)}>
        <section className="block">
          <div className="fields">
            <div className="field">
              <label htmlFor={idOf('name')}>{registryWords.fields.name}</label>
              <input {...control('name')} value={name} onChange={(event) => setName(event.target.value)} autoComplete="off" />
            </div>
            {profile === undefined && choice('kind', profileWords.kind, KINDS, kind, setKind)}
            {kind !== 'hand' && (
              <>
                {choice('delimiter', profileWords.delimiter, DELIMITERS, definition.delimiter, (delimiter) => change({ delimiter }))}
                {choice('decimal', profileWords.decimal, ['.', ','] as const, definition.decimal, (decimal) => change({ decimal }))}
                {choice('encoding', profileWords.encoding, ENCODINGS, definition.encoding, (encoding) => change({ encoding }))}
                <div className="field">
                  <label htmlFor={idOf('skipLines')}>{profileWords.skipLines}</label>
                  <input
                    {...control('skipLines')}
                    type="number"
                    min={0}
                    max={100}
                    value={definition.skipLines}
                    onChange={(event) => change({ skipLines: Number(event.target.value) })}
                  />
                </div>
                {text('timeColumn', profileWords.timeColumn)}
                {text('timeFormat', profileWords.timeFormat, profileWords.timeFormatHint, `${prefix}formats`)}
                {text('timeZone', profileWords.timeZone, profileWords.timeZoneHint)}
                <datalist id={`${prefix}formats`}>
                  {TIME_FORMATS.map((format) => (
                    <option key={format} value={format} />
                  ))}
                </datalist>
                <div className="field">
                  <label htmlFor={idOf('missingValues')}>{profileWords.missing}</label>
                  <input
                    {...control('missingValues')}
                    defaultValue={definition.missingValues.join(' ; ')}
                    onChange={(event) =>
                      change({
                        missingValues: event.target.value
                          .split(';')
                          .map((each) => each.trim())
                          .filter(Boolean),
                      })
                    }
                  />
                </div>
                <div className="field">
                  <label htmlFor={idOf('words')}>{profileWords.words}</label>
                  <textarea {...control('words')} rows={2} value={wordsText} onChange={(event) => setWords(event.target.value)} />
                </div>
              </>
            )}
          </div>
        </section>
        <section className="block">
          <h2>{kind === 'hand' ? profileWords.gauges : profileWords.columns}</h2>
          {kind !== 'hand' && (
            <div className="field">
              <label htmlFor={idOf('header')}>{profileWords.fromFile}</label>
              <input
                id={idOf('header')}
                type="file"
                onChange={(event) => {
                  const file = event.target.files?.[0];
                  if (file === undefined) return;
                  void headerOfFile(file, definition).then(([first = definition.timeColumn, ...rest]) =>
                    change({
                      timeColumn: first,
                      columns: rest.map((column) => definition.columns.find((each) => each.column === column) ?? { ...NO_COLUMN, column }),
                    }),
                  );
                }}
              />
            </div>
          )}
          <ColumnTable kind={kind} columns={definition.columns} positions={positions} onChange={(columns) => change({ columns })} control={control} />
          <p>
            <button type="button" {...control('columns')} onClick={() => change({ columns: [...definition.columns, NO_COLUMN] })}>
              {profileWords.addColumn}
            </button>
          </p>
        </section>
        {kind === 'samples' && segmentation !== undefined && gates !== undefined && (
          <CycleSettings segmentation={segmentation} gates={gates} onChange={change} control={control} />
        )}
        <div className="row">
          <button type="submit" className="main-button">
            {registryWords.save}
          </button>
          <span role="status" className="hint">
            {said}
          </span>
        </div>
      </form>
    </>
  );
}
