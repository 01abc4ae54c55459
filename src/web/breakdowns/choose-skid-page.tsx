import { SkidChooser } from '../ui/skid-chooser.js';
import { breakdownWords } from '../words/breakdowns.js';

export default function ChooseBreakdownPage() {
  return <SkidChooser title={breakdownWords.report} note={breakdownWords.reportNote} pathOf={(skidId) => `/skids/${skidId}/breakdown`} />;
}
