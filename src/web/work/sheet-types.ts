import type { Schemas } from '../api/client.js';

/** A job as the phone gets it. */
export type Sheet = Schemas['SheetView'];
export type TaskOfSheet = Schemas['SheetTaskView'];
export type StepOfSheet = Schemas['SheetStepView'];
/** A van or a store, and what lies in it. */
export type Place = Schemas['PlaceSheetView'];
export type VisitAhead = Schemas['VisitSheetsView'];
/** What a device fetches ahead. */
export type SheetsAhead = Schemas['SheetsView'];
