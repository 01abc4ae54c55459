import { SkidChooser } from '../ui/skid-chooser.js';
import { words } from '../words.js';

export default function ChooseLoadPage() {
  return <SkidChooser title={words.loads.title} note={words.loads.choose} pathOf={(skidId) => `/skids/${skidId}/load`} />;
}
