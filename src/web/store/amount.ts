import { written } from '../format.js';
import { storeWords } from '../words/store.js';

/** A quantity with its unit; of pieces the number alone. */
export const amount = (quantity: string | number, unit: string): string => storeWords.amount(written(Number(quantity)), unit);
