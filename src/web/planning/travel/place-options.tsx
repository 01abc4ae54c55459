import { travelWords as said } from '../../words/travel.js';
import type { Places } from './places.js';

/** Of a select: homes and sites, each under its head. */
export function PlaceOptions({ homes, sites }: Places) {
  return (
    <>
      <option value="">{said.choose}</option>
      {[
        { label: said.sites, places: sites },
        { label: said.people, places: homes },
      ].map(({ label, places }) => (
        <optgroup key={label} label={label}>
          {places.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </optgroup>
      ))}
    </>
  );
}
