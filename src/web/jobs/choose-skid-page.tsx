import { SkidChooser } from '../ui/skid-chooser.js';
import { jobWords } from '../words/jobs.js';

export default function ChooseJobPage() {
  return <SkidChooser title={jobWords.make} note={jobWords.makeNote} pathOf={(skidId) => `/skids/${skidId}/new-job`} />;
}
