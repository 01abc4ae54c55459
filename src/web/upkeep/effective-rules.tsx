import { useState } from 'react';
import { Link } from 'wouter';
import { api, type Schemas } from '../api/client.js';
import { ifMatch } from '../api/if-match.js';
import { SayDialog } from '../ui/say-dialog.js';
import { type Column, GroupedSheet } from '../ui/sheet.js';
import { Empty } from '../ui/states.js';
import { ruleWords } from '../words/rules.js';
import { skidRuleWords as said } from '../words/skid-rules.js';
import { OverrideDialog } from './override-dialog.js';
import { RuleDialog } from './rule-dialog.js';
import type { Rule } from './rule-entries.js';
import { besides } from './rule-list.js';

type Effective = Schemas['EffectiveRuleView'];
type Open = { readonly what: 'new' } | { readonly what: 'edit' | 'end'; readonly rule: Rule } | { readonly what: 'override'; readonly effective: Effective };

interface EffectiveRulesProps {
  readonly name: string;
  readonly found: Schemas['SkidRulesView'];
  readonly mayEdit: boolean;
}

/** What holds at each place of the skid, in words; a manager changes it here, or adds a rule for this skid alone. */
export function EffectiveRules({ name, found: { skidId, rules }, mayEdit }: EffectiveRulesProps) {
  const [open, setOpen] = useState<Open>();
  const close = () => setOpen(undefined);
  const own = rules.filter(({ rule }) => rule.skidId !== null).map(({ rule }) => rule);
  const form = { home: { skidId }, others: distinct(own), onClose: close };
  return (
    <section className="block">
      <div className="block-head">
        <h2>{said.holding}</h2>
        {mayEdit && (
          <button type="button" onClick={() => setOpen({ what: 'new' })}>
            {said.addOwn}
          </button>
        )}
      </div>
      {rules.length === 0 ? (
        <Empty title={said.noRules}>{mayEdit ? said.noRulesManager : said.noRulesOther}</Empty>
      ) : (
        <GroupedSheet caption={said.holding} columns={columnsOf(mayEdit ? setOpen : undefined)} groups={groupsOf(rules)} keyOf={keyOf} />
      )}
      {open?.what === 'new' && <RuleDialog {...form} title={said.ownTitle(name)} />}
      {open?.what === 'edit' && <RuleDialog {...form} title={ruleWords.changeTitle(open.rule.task)} rule={open.rule} />}
      {open?.what === 'override' && <OverrideDialog skidId={skidId} effective={open.effective} onClose={close} />}
      {open?.what === 'end' && (
        <SayDialog
          title={said.endTitle(open.rule.task)}
          button={said.end}
          send={() =>
            api.POST('/api/rules/{id}/end', {
              params: { path: { id: open.rule.id } },
              headers: ifMatch(open.rule),
              body: { on: new Date().toISOString().slice(0, 10) },
            })
          }
          onClose={close}
        >
          <p>{said.endText}</p>
        </SayDialog>
      )}
    </section>
  );
}

const keyOf = ({ positionId, rule }: Effective) => `${positionId} ${rule.id}`;
const distinct = (rules: readonly Rule[]) => [...new Map(rules.map((rule) => [rule.id, rule])).values()];

function groupsOf(rules: readonly Effective[]) {
  const places = [...new Map(rules.map(({ positionId, positionName, rule }) => [positionId, { positionName, kind: rule.positionKind }])).entries()];
  return places.map(([positionId, { positionName, kind }]) => ({
    key: String(positionId),
    head: positionId === null ? ruleWords.wholeSkid : said.placeOfKind(positionName, kind),
    rows: rules.filter((each) => each.positionId === positionId),
  }));
}

function columnsOf(setOpen: ((open: Open) => void) | undefined): readonly Column<Effective>[] {
  const actions: Column<Effective> = {
    name: said.actions,
    short: true,
    cell: (effective) => {
      const { rule, source, positionName } = effective;
      const about = <span className="unseen">{[rule.task, positionName].filter(Boolean).join(', ')}</span>;
      return (
        <span className="side-by-side">
          {source !== 'override' && (
            <button type="button" onClick={() => setOpen?.({ what: 'override', effective })}>
              {said.override} {about}
            </button>
          )}
          {rule.skidId !== null && (
            <>
              <button type="button" onClick={() => setOpen?.({ what: 'edit', rule })}>
                {said.edit} {about}
              </button>
              <button type="button" onClick={() => setOpen?.({ what: 'end', rule })}>
                {said.end} {about}
              </button>
            </>
          )}
        </span>
      );
    },
  };
  return [
    { name: said.task, cell: ({ rule: { task, taskSheetId } }) => <Link href={`/task-sheets/${taskSheetId}`}>{task}</Link> },
    { name: ruleWords.due, wide: true, cell: ({ inWords }) => inWords },
    { name: said.from, cell: ({ source, reason }) => (reason === null ? said.sources[source] : said.because(reason)) },
    { name: ruleWords.more, wide: true, cell: ({ rule }) => besides(rule).join('; ') },
    ...(setOpen === undefined ? [] : [actions]),
  ];
}
