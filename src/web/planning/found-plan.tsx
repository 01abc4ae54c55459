import { useState } from 'react';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { addDays } from '../site-time.js';
import { Choice } from '../ui/choice.js';
import { Opened } from '../ui/opened.js';
import { Empty, Loaded } from '../ui/states.js';
import { weekday } from '../visits/weekday.js';
import { planWords } from '../words/plan.js';
import { whatIfWords } from '../words/what-if.js';
import { ChangeTable } from './change-table.js';
import { CostTable } from './cost-table.js';
import { DayStrips } from './drawing/day-strips.js';
import { RouteSketch } from './drawing/route-sketch.js';
import { LineDialog } from './line-dialog.js';
import { LineSection } from './line-section.js';
import { numbered } from './lines.js';
import { NotInPlan } from './not-in-plan.js';
import { ReplanForm } from './replan-form.js';
import type { ShownPlan } from './shown-plan.js';
import { WhatIfDialog } from './what-if/what-if-dialog.js';

/** A plan that is kept, with what is known of people and sites beside it. */
export function FoundPlan({ planId, onPlanned }: { planId: string; onPlanned: (planId: string) => void }) {
  const plan = query.useQuery('get', '/api/plans/{id}', { params: { path: { id: planId } } });
  const people = query.useQuery('get', '/api/planning/people');
  const sites = query.useQuery('get', '/api/planning/sites');
  return (
    <Loaded of={plan} what={planWords.whatPlan}>
      {(found) => (
        <Loaded of={people} what={planWords.whatPlanning}>
          {(ofPeople) => (
            <Loaded of={sites} what={planWords.whatPlanning}>
              {(ofSites) => <Shown plan={found} people={ofPeople} sites={ofSites} onPlanned={onPlanned} />}
            </Loaded>
          )}
        </Loaded>
      )}
    </Loaded>
  );
}

interface ShownProps extends Pick<ShownPlan, 'people' | 'sites'> {
  readonly plan: Schemas['PlanView'];
  /** Another plan was made from it */
  readonly onPlanned: (planId: string) => void;
}

function Shown({ plan, people, sites, onPlanned }: ShownProps) {
  const [personId, setPersonId] = useState('');
  const [open, setOpen] = useState<string>();
  const [isAsking, setAsking] = useState(false);
  const lines = numbered(plan.lines);
  const all: ShownPlan = { people, sites, lines, tours: plan.tours };
  const shown: ShownPlan = { ...all, tours: plan.tours.filter((tour) => personId === '' || tour.personId === personId) };
  const going = people.filter((person) => plan.tours.some((tour) => tour.personId === person.personId));
  const opened = lines.find(({ id }) => id === open);
  return (
    <>
      <section className="block">
        <div className="block-head">
          <h2>{planWords.planNo(plan.no)}</h2>
          <div className="tools no-print">
            <Choice
              label={planWords.person}
              value={personId}
              options={going.map(({ personId: value, name: label }) => ({ value, label }))}
              all={planWords.everybody}
              onChoose={setPersonId}
            />
            <button type="button" onClick={() => setAsking(true)}>
              {whatIfWords.button}
            </button>
          </div>
        </div>
        <p role="status" className="count">
          {planWords.found(lines.length, plan.tours.length, weekday(plan.firstDay), weekday(addDays(plan.firstDay, plan.days - 1)))}{' '}
          {plan.replacedByNo !== null && planWords.replacedBy(plan.replacedByNo)}
        </p>
        <p className={plan.verdict === 'promise not kept' ? 'note-box' : undefined}>{planWords.verdicts[plan.verdict]}</p>
        {plan.peopleLeftOut.length > 0 && (
          <p className="aside">
            {planWords.peopleLeftOut(plan.peopleLeftOut.join(', '))} <Link href="/people">{planWords.enterHours}</Link>
          </p>
        )}
        {shown.tours.length > 0 ? <DayStrips plan={shown} onOpen={setOpen} /> : <Empty title={planWords.noTours}>{planWords.noToursWhy}</Empty>}
        {plan.replacedById === null && (
          <Opened summary={planWords.replan.title} what={planWords.whatPlan}>
            <ReplanForm plan={plan} people={people} onPlanned={onPlanned} />
          </Opened>
        )}
      </section>
      <ChangeTable plan={plan} />
      {lines.length > 0 && <LineSection planId={plan.id} plan={all} personId={personId} isReplaced={plan.replacedById !== null} onOpen={setOpen} />}
      <NotInPlan left={plan.notInPlan} />
      <div className="beside plan-foot">
        <CostTable costs={plan.costs} currency={plan.currency} />
        {shown.tours.length > 0 && <RouteSketch plan={shown} />}
      </div>
      {isAsking && <WhatIfDialog plan={plan} people={people} onClose={() => setAsking(false)} />}
      {opened !== undefined && <LineDialog key={opened.id} line={opened} plan={all} onClose={() => setOpen(undefined)} />}
    </>
  );
}
