import { SkidChooser } from '../ui/skid-chooser.js';
import { words } from '../words.js';

export default function ChooseJobPage() {
  return <SkidChooser title={words.jobs.make} note={words.jobs.makeNote} pathOf={(skidId) => `/skids/${skidId}/new-job`} />;
}
