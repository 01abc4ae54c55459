import { figure } from '../../shared/figure.js';
import { chemicalClass, mustNotMeet } from '../../shared/incompatibility.js';

/** What is about to be poured, and into what. */
export interface DeliveryToCheck {
  readonly chemicalOfTank: string;
  readonly capacityL: number;
  /** The usual strength of the tank */
  readonly usualGL: number | null;
  /** As the label names it; `null`: not said */
  readonly product: string | null;
  readonly volumeL: number;
  readonly strengthGL: number | null;
  /** Somebody looked at the label again */
  readonly strengthConfirmed: boolean;
}

export interface DeliveryFault {
  readonly field: 'product' | 'volumeL' | 'strengthGL';
  readonly message: string;
}

/** Trade products of one strength differ by less than this. Common practice. */
const STRENGTH_OFF = 0.25;

/**
 * What speaks against a delivery before it is poured: a product that must not meet what the tank holds or is another one, more than the tank can hold, a strength that the
 * tank never has. The strength alone can be confirmed.
 *
 * Source: `mustNotMeet` for what must not meet; the limits common practice.
 *
 * @example deliveryFaults({ chemicalOfTank: 'citric acid', capacityL: 500, usualGL: 620, product: 'NaOCl 12.5 %', volumeL: 100, strengthGL: null, strengthConfirmed: true })[0].field // => "product"
 */
export function deliveryFaults(delivery: DeliveryToCheck): DeliveryFault[] {
  const { chemicalOfTank, capacityL, usualGL, product, volumeL, strengthGL, strengthConfirmed } = delivery;
  const faults: DeliveryFault[] = [];
  if (product !== null) {
    const message = wrongProduct(product, chemicalOfTank);
    if (message !== null) faults.push({ field: 'product', message });
  }
  if (volumeL > capacityL)
    faults.push({
      field: 'volumeL',
      message: `${figure(volumeL)} L is more than the tank holds (${figure(capacityL)} L): enter what went into this tank, and the rest at the other`,
    });
  if (strengthGL !== null && usualGL !== null && !strengthConfirmed && Math.abs(strengthGL / usualGL - 1) > STRENGTH_OFF)
    faults.push({
      field: 'strengthGL',
      message: `${strengthOff(strengthGL, usualGL)}. Read the label again, and its basis; if it is so, confirm the strength`,
    });
  return faults;
}

function wrongProduct(product: string, chemicalOfTank: string): string | null {
  const danger = mustNotMeet(product, chemicalOfTank);
  if (danger !== null && chemicalClass(product) === 'unknown')
    return `${product} is not known, and this tank holds ${chemicalOfTank}: write the chemical as the safety data sheet names it before anything is poured`;
  if (danger !== null)
    return `${product} must never go into a tank of ${chemicalOfTank}: ${danger.happens}. Stop, keep away, and look at label and tank before anything is poured`;
  const [own, other] = [chemicalClass(chemicalOfTank), chemicalClass(product)];
  return own !== 'unknown' && other !== 'unknown' && own !== other
    ? `${product} is not what this tank holds (${chemicalOfTank}): choose the tank that it went into`
    : null;
}

function strengthOff(strengthGL: number, usualGL: number): string {
  const off = Math.round(100 * Math.abs(strengthGL / usualGL - 1));
  const said = `${figure(strengthGL)} g/L is ${off} % ${strengthGL < usualGL ? 'below' : 'above'} the usual ${figure(usualGL)} g/L of this tank`;
  return Math.abs((10 * strengthGL) / usualGL - 1) <= STRENGTH_OFF ? `${said}, but ten times it would fit: per cent by volume are ten times as many g/L` : said;
}
