import type { Schemas } from '../api/client.js';
import { words } from '../words.js';
import { DeliveryForm, DipForm } from './tank-forms.js';

/** A dip or a delivery of a tank, from a list of tanks. */
export default function TankEntry({ tank }: { tank: Schemas['TankCoverView'] }) {
  return (
    <>
      <p className="form-name">{words.events.dip}</p>
      <DipForm tank={tank} />
      <p className="form-name">{words.events.delivery}</p>
      <DeliveryForm tank={tank} />
    </>
  );
}
