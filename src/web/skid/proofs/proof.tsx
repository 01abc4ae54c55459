import '../../styles/proofs.css';
import { CalibrationForm } from './calibration-form.js';
import { RepairForm } from './repair-form.js';
import { SetupForm } from './setup-form.js';
import { TestForm } from './test-form.js';

const FORMS = { test: TestForm, repair: RepairForm, setup: SetupForm, calibration: CalibrationForm };

/** The form that was asked for, loaded when the first of them is opened. */
export default function Proof({ form, skidId, timeZone }: { form: keyof typeof FORMS; skidId: string; timeZone: string }) {
  const Form = FORMS[form];
  return (
    <div className="proof">
      <Form skidId={skidId} timeZone={timeZone} />
    </div>
  );
}
