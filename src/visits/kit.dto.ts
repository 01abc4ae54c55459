import { View } from '../app/index.js';

export class KitStoreView extends View {
  readonly placeId!: string;
  readonly placeName!: string;
  readonly onHand!: string;
}

export class KitHandOverView extends View {
  /** Whose van it is in */
  readonly name!: string;
  readonly quantity!: string;
}

export class KitItemView extends View {
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  readonly unit!: string;
  /** A decimal number, as all quantities here */
  readonly quantity!: string;
  /** In the vans of those who go */
  readonly inVan!: string;
  /** To be taken along from a store, or from somebody else */
  readonly toPick!: string;
  readonly stores!: KitStoreView[];
  /** Of what the stores do not hold, what the vans of others can spare; no more than is needed */
  readonly otherVans!: KitHandOverView[];
  /** What is to be had nowhere */
  readonly short!: string;
}

export class KitChemicalView extends View {
  readonly chemical!: string;
  readonly litres!: number;
  readonly strength!: string;
}

export class KeepApartView extends View {
  readonly chemicals!: string[];
  readonly happens!: string;
}

export class KitCautionView extends View {
  readonly about!: string;
  readonly text!: string;
}

/** Everything that the work still to be done in a visit needs. */
export class KitView extends View {
  readonly items!: KitItemView[];
  readonly chemicals!: KitChemicalView[];
  /** Chemicals of this kit that must not meet, in the van neither */
  readonly keepApart!: KeepApartView[];
  readonly tools!: string[];
  readonly instruments!: string[];
  readonly skills!: string[];
  readonly certificates!: string[];
  /** The most people that a task needs */
  readonly crew!: number;
  readonly waterOffMinutes!: number;
  readonly cautions!: KitCautionView[];
  /** Tasks without a sheet: what they take is not known */
  readonly withoutSheet!: string[];
}
