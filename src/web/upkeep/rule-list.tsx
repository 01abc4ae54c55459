import { type ReactNode, useState } from 'react';
import { Link } from 'wouter';
import { minutes } from '../format.js';
import { Choice } from '../ui/choice.js';
import { type Column, GroupedSheet } from '../ui/sheet.js';
import { ruleWords as said } from '../words/rules.js';
import { placeName, type Rule } from './rule-entries.js';

const time = ({ usualMinutes, crew }: Rule) => (crew === 1 ? minutes(usualMinutes) : said.crewTimes(crew, minutes(usualMinutes)));

/** What a rule says beside its limits. */
export const besides = ({ graceDays, contains, note }: Rule): string[] =>
  [graceDays === null ? '' : said.grace(graceDays), contains.length === 0 ? '' : said.with(contains.join(', ')), note].filter(Boolean);

/** The rules of a version, in groups by where they hold. */
export function RuleList({ rules, actions }: { rules: readonly Rule[]; actions?: (rule: Rule) => ReactNode }) {
  const [place, setPlace] = useState('');
  const places = [...new Set(rules.map(({ positionKind }) => positionKind))];
  const shown = places.includes(place) ? [place] : places;
  const columns: readonly Column<Rule>[] = [
    { name: said.task, cell: ({ task, taskSheetId }) => <Link href={`/task-sheets/${taskSheetId}`}>{task}</Link> },
    { name: said.due, wide: true, cell: ({ inWords }) => inWords },
    { name: said.takes, short: true, cell: time },
    {
      name: said.more,
      wide: true,
      cell: (rule) =>
        besides(rule).map((line) => (
          <span className="line" key={line}>
            {line}
          </span>
        )),
    },
    ...(actions === undefined ? [] : [{ name: said.actions, short: true as const, cell: actions }]),
  ];
  return (
    <>
      {places.length > 1 && (
        <div className="tools no-print">
          <Choice
            label={said.place}
            value={place}
            all={said.everywhere}
            options={places.map((value) => ({ value, label: placeName(value) }))}
            onChoose={setPlace}
          />
        </div>
      )}
      <GroupedSheet
        caption={said.rules}
        columns={columns}
        groups={shown.map((kind) => ({ key: kind, head: placeName(kind), rows: rules.filter(({ positionKind }) => positionKind === kind) }))}
        keyOf={({ id }) => id}
      />
    </>
  );
}
