import { SkidChooser } from '../ui/skid-chooser.js';
import { words } from '../words.js';

export default function ChooseReadingsPage() {
  return <SkidChooser title={words.readings.title} note={words.readings.choose} pathOf={(skidId) => `/skids/${skidId}/readings`} />;
}
