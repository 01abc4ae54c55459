import '../styles/planning.css';
import '../styles/plan.css';
import { useState } from 'react';
import { Link } from 'wouter';
import { query, type Schemas } from '../api/client.js';
import { addDays } from '../site-time.js';
import { Choice } from '../ui/choice.js';
import { PageHead } from '../ui/page-head.js';
import { Empty, Loaded } from '../ui/states.js';
import { weekday } from '../visits/weekday.js';
import { planWords } from '../words/plan.js';
import { DayStrips } from './day-strips.js';
import { LineTable } from './line-table.js';
import { NotInPlan } from './not-in-plan.js';
import { linesOf } from './plan-lines.js';
import { RouteSketch } from './route-sketch.js';
import { SearchForm } from './search-form.js';
import type { ShownPlan } from './shown-plan.js';
import { StayDialog } from './stay-dialog.js';

/** A plan of visits: searched, drawn along the time of each day, and read as a table. */
export default function PlanPage() {
  const [plan, setPlan] = useState<Schemas['PlanView']>();
  return (
    <>
      <PageHead title={planWords.title} />
      <p className="aside">{planWords.note}</p>
      <SearchForm onFound={setPlan} />
      {plan === undefined ? <Empty title={planWords.noPlan}>{planWords.noPlanWhy}</Empty> : <Found plan={plan} />}
    </>
  );
}

function Found({ plan }: { plan: Schemas['PlanView'] }) {
  const people = query.useQuery('get', '/api/planning/people');
  const sites = query.useQuery('get', '/api/planning/sites');
  return (
    <Loaded of={people} what={planWords.whatPlanning}>
      {(ofPeople) => (
        <Loaded of={sites} what={planWords.whatPlanning}>
          {(ofSites) => <Shown plan={plan} people={ofPeople} sites={ofSites} />}
        </Loaded>
      )}
    </Loaded>
  );
}

function Shown({ plan, people, sites }: Omit<ShownPlan, 'lines' | 'tours'> & { plan: Schemas['PlanView'] }) {
  const [personId, setPersonId] = useState('');
  const [open, setOpen] = useState<string>();
  const lines = linesOf(plan.tours);
  const shown: ShownPlan = { people, sites, lines, tours: plan.tours.filter((tour) => personId === '' || tour.personId === personId) };
  const going = people.filter((person) => plan.tours.some((tour) => tour.personId === person.personId));
  const opened = lines.find(({ key }) => key === open);
  return (
    <>
      <section className="block">
        <div className="block-head">
          <h2>{planWords.strips}</h2>
          <div className="tools no-print">
            <Choice
              label={planWords.person}
              value={personId}
              options={going.map(({ personId: value, name: label }) => ({ value, label }))}
              all={planWords.everybody}
              onChoose={setPersonId}
            />
          </div>
        </div>
        <p role="status" className="count">
          {planWords.found(lines.length, plan.tours.length, weekday(plan.firstDay), weekday(addDays(plan.firstDay, plan.days - 1)))}
        </p>
        {plan.peopleLeftOut.length > 0 && (
          <p className="note-box">
            {planWords.peopleLeftOut(plan.peopleLeftOut.join(', '))} <Link href="/people">{planWords.enterHours}</Link>
          </p>
        )}
        {shown.tours.length > 0 ? <DayStrips plan={shown} onOpen={setOpen} /> : <Empty title={planWords.noTours}>{planWords.noToursWhy}</Empty>}
      </section>
      {shown.tours.length > 0 && <RouteSketch plan={shown} />}
      {lines.length > 0 && <LineTable plan={shown} personId={personId} onOpen={setOpen} />}
      <NotInPlan left={plan.notInPlan} sites={sites} />
      {opened !== undefined && <StayDialog key={opened.key} line={opened} plan={{ ...shown, tours: plan.tours }} onClose={() => setOpen(undefined)} />}
    </>
  );
}
