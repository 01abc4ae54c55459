import type { Schemas } from '../api/client.js';
import { profileWords } from '../words/profiles.js';
import type { Definition } from './definition.js';

interface CycleSettingsProps {
  readonly segmentation: Schemas['ProfileSegmentationDto'];
  readonly gates: Schemas['ProfileGatesDto'];
  readonly onChange: (fields: Partial<Definition>) => void;
  readonly control: (path: string) => { id: string; 'aria-invalid': true | undefined };
}

const SEGMENTATION = ['filtrationFlowShare', 'maxGapMinutes'] as const;
const GATES = ['settleSeconds', 'startFromMinutes', 'startToMinutes', 'endMinutes', 'stuckAfter'] as const;

/** How cycles are told from samples; the usual values fit most plants. */
export function CycleSettings({ segmentation, gates, onChange, control }: CycleSettingsProps) {
  const field = (path: string, label: string, value: number | null, set: (value: number | null) => void) => (
    <div className="field" key={path}>
      <label htmlFor={control(path).id}>{label}</label>
      <input
        {...control(path)}
        type="number"
        step="any"
        value={value ?? ''}
        onChange={(event) => set(event.target.value === '' ? null : Number(event.target.value))}
      />
    </div>
  );
  return (
    <details className="more block">
      <summary>{profileWords.cycles}</summary>
      <div className="fields">
        <div className="field">
          <label htmlFor={control('segmentation/filtrationModes').id}>{profileWords.settings.filtrationModes}</label>
          <input
            {...control('segmentation/filtrationModes')}
            defaultValue={segmentation.filtrationModes?.join(', ')}
            onChange={(event) => {
              const modes = event.target.value
                .split(',')
                .map((each) => each.trim())
                .filter(Boolean)
                .map(Number);
              onChange({ segmentation: { ...segmentation, filtrationModes: modes.length === 0 ? null : modes } });
            }}
          />
        </div>
        {SEGMENTATION.map((name) =>
          field(`segmentation/${name}`, profileWords.settings[name], segmentation[name], (value) =>
            onChange({ segmentation: { ...segmentation, [name]: value } }),
          ),
        )}
        {GATES.map((name) => field(`gates/${name}`, profileWords.settings[name], gates[name], (value) => onChange({ gates: { ...gates, [name]: value } })))}
      </div>
    </details>
  );
}
