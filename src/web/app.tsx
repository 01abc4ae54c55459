import { useQueryClient } from '@tanstack/react-query';
import { lazy, type ReactNode, Suspense, useCallback, useEffect, useRef } from 'react';
import { Route, Switch, useLocation } from 'wouter';
import { useSending } from './offline/device-outbox.js';
import { keepSession } from './offline/kept-session.js';
import { UnsentLine } from './offline/unsent-line.js';
import { SESSION_KEY, type Session, SessionContext, useMay, useSession, useSessionQuery } from './session/session.js';
import { SignInPage } from './session/sign-in-page.js';
import { Strip } from './strip.js';
import { NotFound } from './ui/not-found.js';
import { Loaded, Loading } from './ui/states.js';
import { words } from './words.js';
import { FetchAhead } from './work/use-sheets.js';

const FirstManagerPage = lazy(() => import('./session/first-manager-page.js'));
const InvitationPage = lazy(() => import('./session/invitation-page.js'));
const MyWorkPage = lazy(() => import('./work/my-work-page.js'));
const JobSheetPage = lazy(() => import('./work/job-sheet-page.js'));
const FleetPage = lazy(() => import('./fleet/fleet-page.js'));
const StartPage = lazy(() => import('./start/start-page.js'));
const SkidPage = lazy(() => import('./skid/skid-page.js'));
const DuePage = lazy(() => import('./dues/due-page.js'));
const VisitsPage = lazy(() => import('./visits/visits-page.js'));
const PlanPage = lazy(() => import('./planning/plan-page.js'));
const DaySheetPage = lazy(() => import('./planning/day-sheet-page.js'));
const VisitPage = lazy(() => import('./visits/visit-page.js'));
const KitPage = lazy(() => import('./visits/kit-page.js'));
const JobsPage = lazy(() => import('./jobs/jobs-page.js'));
const JobPage = lazy(() => import('./jobs/job-page.js'));
const ChooseJobPage = lazy(() => import('./jobs/choose-skid-page.js'));
const NewJobPage = lazy(() => import('./jobs/new-job-page.js'));
const CorrectSheetPage = lazy(() => import('./work/correct-page.js'));
const BreakdownsPage = lazy(() => import('./breakdowns/breakdowns-page.js'));
const ChooseBreakdownPage = lazy(() => import('./breakdowns/choose-skid-page.js'));
const ReportBreakdownPage = lazy(() => import('./breakdowns/report-page.js'));
const StorePages = lazy(() => import('./store/store-pages.js'));
const ReorderPage = lazy(() => import('./store/reorder-page.js'));
const ChemicalsPage = lazy(() => import('./chemicals/chemicals-page.js'));
const TankPage = lazy(() => import('./chemicals/tank-page.js'));
const CalculatorsPage = lazy(() => import('./chemicals/calculators-page.js'));
const SupplyPage = lazy(() => import('./chemicals/supply-page.js'));
const ChooseLoadPage = lazy(() => import('./loads/choose-skid-page.js'));
const LoadPage = lazy(() => import('./loads/load-page.js'));
const ProfilesPage = lazy(() => import('./profiles/profiles-page.js'));
const ProfilePage = lazy(() => import('./profiles/profile-page.js'));
const ChooseReadingsPage = lazy(() => import('./readings/choose-skid-page.js'));
const ReadingsPage = lazy(() => import('./readings/readings-page.js'));
const BackLogPage = lazy(() => import('./readings/back-log-page.js'));
const SheetPage = lazy(() => import('./readings/sheet-page.js'));
const PeoplePage = lazy(() => import('./people/people-page.js'));
const TravelPage = lazy(() => import('./planning/travel/travel-page.js'));
const RatesPage = lazy(() => import('./planning/settings/rates-page.js'));
const PersonPlanningPage = lazy(() => import('./planning/settings/person-planning-page.js'));
const SitePlanningPage = lazy(() => import('./planning/settings/site-planning-page.js'));
const RegistryPage = lazy(() => import('./registry/registry-page.js'));
const ClientPage = lazy(() => import('./registry/client-page.js'));
const SitePage = lazy(() => import('./registry/site-page.js'));
const SkidRecordPage = lazy(() => import('./registry/skid-record-page.js'));
const GatewaysPage = lazy(() => import('./gateways/gateways-page.js'));
const NoticesPage = lazy(() => import('./notices/notices-page.js'));
const RequestsPage = lazy(() => import('./requests/requests-page.js'));
const NewRequestPage = lazy(() => import('./requests/new-request-page.js'));
const RequestPage = lazy(() => import('./requests/request-page.js'));
const IndicatorsPage = lazy(() => import('./upkeep/indicators-page.js'));
const HistoryPage = lazy(() => import('./history/history-page.js'));
const FoulingPage = lazy(() => import('./fouling/fouling-page.js'));
const OutlooksPage = lazy(() => import('./outlooks/outlooks-page.js'));
const LoadAheadPage = lazy(() => import('./upkeep/load-page.js'));
const RuleSetsPage = lazy(() => import('./upkeep/rule-sets-page.js'));
const RuleVersionPage = lazy(() => import('./upkeep/rule-version-page.js'));
const MoveSkidsPage = lazy(() => import('./upkeep/move-skids-page.js'));
const SkidRulesPage = lazy(() => import('./upkeep/skid-rules-page.js'));
const TaskSheetsPage = lazy(() => import('./upkeep/task-sheets-page.js'));
const TaskSheetPage = lazy(() => import('./upkeep/task-sheet-page.js'));
const SheetEditPage = lazy(() => import('./upkeep/sheet-edit-page.js'));
const UnitsPage = lazy(() => import('./units/units-page.js'));

/** Addresses of the store, whose pages are known to a part of their own: other pages stay light */
const OF_STORE = /^\/(reorder|stock|orders|counts|transfers|lots)(\/|$)/;

/** Where those begin who do not begin with the fleet. */
const START: Readonly<Partial<Record<Session['role'], typeof FleetPage>>> = { client: StartPage, storekeeper: ReorderPage };

export function App() {
  return (
    <Switch>
      <Route path="/first-manager">
        <Frame>
          <FirstManagerPage />
        </Frame>
      </Route>
      <Route path="/invitation/:token">
        {({ token }) => (
          <Frame>
            <InvitationPage token={token} />
          </Frame>
        )}
      </Route>
      <Route>
        <WhoIsIt />
      </Route>
    </Switch>
  );
}

/** Asks who is signed in before any page; the sign-in form takes the place of the page, so that its address stays. */
function WhoIsIt() {
  const session = useSessionQuery();
  const person = session.data ?? null;
  const client = useQueryClient();
  useEffect(() => {
    if (person !== null) void keepSession(person);
  }, [person]);
  useSending(
    person?.id ?? null,
    useCallback(() => void client.invalidateQueries({ queryKey: SESSION_KEY }), [client]),
  );
  return (
    <SessionContext value={person}>
      <Frame session={person}>
        <Loaded of={session} what={words.session.what}>
          {(found) => (found === null ? <SignInPage /> : <Pages />)}
        </Loaded>
      </Frame>
    </SessionContext>
  );
}

function Frame({ session = null, children }: { session?: Session | null; children: ReactNode }) {
  const [path] = useLocation();
  const isFirst = useRef(true);
  // After a move within the pages, reading starts at the new one.
  useEffect(() => {
    if (isFirst.current) {
      isFirst.current = false;
      return;
    }
    document.getElementById('main')?.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }, [path]);
  return (
    <>
      <a className="skip" href="#main">
        {words.skip}
      </a>
      <header>
        {session?.demo && <p className="demo-note">{words.demoNote}</p>}
        <Strip session={session} path={path} />
        <UnsentLine session={session} />
      </header>
      <main id="main" tabIndex={-1}>
        <Suspense fallback={<Loading what={words.page} />}>{children}</Suspense>
      </main>
    </>
  );
}

function Pages() {
  const { role } = useSession();
  const may = useMay();
  return (
    <>
      {role === 'technician' && <FetchAhead />}
      <Switch>
        <Route path="/" component={START[role] ?? FleetPage} />
        {role === 'storekeeper' && <Route path="/fleet" component={FleetPage} />}
        <Route path="/skids/:skidId">{({ skidId }) => <SkidPage key={skidId} skidId={skidId} />}</Route>
        <Route path="/tanks/:tankId">{({ tankId }) => <TankPage key={tankId} tankId={tankId} />}</Route>
        <Route path="/calculators" component={CalculatorsPage} />
        {!may.seeWork && <Route path="/supply" component={SupplyPage} />}
        <Route path="/work" component={MyWorkPage} />
        <Route path="/work/:jobId">{({ jobId }) => <JobSheetPage key={jobId} jobId={jobId} />}</Route>
        <Route path="/dues" component={DuePage} />
        {may.seeWork && <Route path="/visits" component={VisitsPage} />}
        {may.manage && <Route path="/plan" component={PlanPage} />}
        {may.manage && <Route path="/plan/rates" component={RatesPage} />}
        {may.manage && <Route path="/plan/travel" component={TravelPage} />}
        {may.seeWork && <Route path="/day-sheet" component={DaySheetPage} />}
        {may.seeWork && <Route path="/visits/:id">{({ id }) => <VisitPage key={id} visitId={id} />}</Route>}
        {may.seeWork && <Route path="/visits/:id/kit">{({ id }) => <KitPage key={id} visitId={id} />}</Route>}
        {may.seeWork && <Route path="/jobs" component={JobsPage} />}
        {may.manage && <Route path="/jobs/new" component={ChooseJobPage} />}
        {may.manage && <Route path="/skids/:skidId/new-job">{({ skidId }) => <NewJobPage key={skidId} skidId={skidId} />}</Route>}
        {may.manage && <Route path="/jobs/:jobId/reports/:reportId/correct">{(of) => <CorrectSheetPage key={of.reportId} {...of} />}</Route>}
        {may.seeWork && <Route path="/jobs/:id">{({ id }) => <JobPage key={id} jobId={id} />}</Route>}
        {may.seeWork && <Route path="/breakdowns" component={BreakdownsPage} />}
        {may.doWork && <Route path="/breakdowns/new" component={ChooseBreakdownPage} />}
        {may.doWork && <Route path="/skids/:skidId/breakdown">{({ skidId }) => <ReportBreakdownPage key={skidId} skidId={skidId} />}</Route>}
        {may.seeWork && <Route path={OF_STORE} component={StorePages} />}
        <Route path="/chemicals" component={ChemicalsPage} />
        <Route path="/load" component={ChooseLoadPage} />
        <Route path="/skids/:skidId/history">{({ skidId }) => <HistoryPage key={skidId} skidId={skidId} />}</Route>
        <Route path="/skids/:skidId/fouling">{({ skidId }) => <FoulingPage key={skidId} skidId={skidId} />}</Route>
        <Route path="/skids/:skidId/load">{({ skidId }) => <LoadPage key={skidId} skidId={skidId} />}</Route>
        <Route path="/skids/:skidId/profiles">{({ skidId }) => <ProfilesPage skidId={skidId} />}</Route>
        <Route path="/skids/:skidId/profiles/:profileId">
          {({ skidId, profileId }) => <ProfilePage key={profileId} skidId={skidId} profileId={profileId} />}
        </Route>
        <Route path="/readings" component={ChooseReadingsPage} />
        <Route path="/skids/:skidId/readings">{({ skidId }) => <ReadingsPage key={skidId} skidId={skidId} />}</Route>
        <Route path="/skids/:skidId/back-log">{({ skidId }) => <BackLogPage key={skidId} skidId={skidId} />}</Route>
        <Route path="/skids/:skidId/sheet">{({ skidId }) => <SheetPage skidId={skidId} />}</Route>
        <Route path="/people" component={PeoplePage} />
        {may.manage && <Route path="/people/:id/planning">{({ id }) => <PersonPlanningPage key={id} personId={id} />}</Route>}
        <Route path="/registry" component={RegistryPage} />
        <Route path="/registry/clients/:id">{({ id }) => <ClientPage key={id} clientId={id} />}</Route>
        <Route path="/registry/sites/:id">{({ id }) => <SitePage key={id} siteId={id} />}</Route>
        {may.manage && <Route path="/registry/sites/:id/planning">{({ id }) => <SitePlanningPage key={id} siteId={id} />}</Route>}
        <Route path="/registry/skids/:id">{({ id }) => <SkidRecordPage key={id} skidId={id} />}</Route>
        <Route path="/gateways" component={GatewaysPage} />
        <Route path="/notices" component={NoticesPage} />
        <Route path="/requests" component={RequestsPage} />
        <Route path="/requests/new" component={NewRequestPage} />
        <Route path="/requests/:id">{({ id }) => <RequestPage key={id} jobId={id} />}</Route>
        {may.seeUpkeep && <Route path="/outlooks" component={OutlooksPage} />}
        {may.seeUpkeep && <Route path="/load-ahead" component={LoadAheadPage} />}
        {may.seeUpkeep && <Route path="/rules" component={RuleSetsPage} />}
        {may.manage && <Route path="/rules/:versionId/skids">{({ versionId }) => <MoveSkidsPage key={versionId} versionId={versionId} />}</Route>}
        {may.seeUpkeep && <Route path="/skids/:skidId/rules">{({ skidId }) => <SkidRulesPage key={skidId} skidId={skidId} />}</Route>}
        {may.seeUpkeep && <Route path="/rules/:versionId">{({ versionId }) => <RuleVersionPage key={versionId} versionId={versionId} />}</Route>}
        {may.seeUpkeep && <Route path="/task-sheets" component={TaskSheetsPage} />}
        {may.manage && <Route path="/task-sheets/new">{() => <SheetEditPage />}</Route>}
        {may.manage && <Route path="/task-sheets/:id/edit">{({ id }) => <SheetEditPage key={id} sheetId={id} />}</Route>}
        {may.seeUpkeep && <Route path="/task-sheets/:id">{({ id }) => <TaskSheetPage key={id} sheetId={id} />}</Route>}
        {may.seeUpkeep && <Route path="/indicators" component={IndicatorsPage} />}
        <Route path="/units" component={UnitsPage} />
        <Route component={NotFound} />
      </Switch>
    </>
  );
}
