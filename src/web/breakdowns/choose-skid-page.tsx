import { SkidChooser } from '../ui/skid-chooser.js';
import { words } from '../words.js';

export default function ChooseBreakdownPage() {
  return <SkidChooser title={words.breakdowns.report} note={words.breakdowns.reportNote} pathOf={(skidId) => `/skids/${skidId}/breakdown`} />;
}
