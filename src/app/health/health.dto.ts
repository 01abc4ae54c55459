import { View } from '../errors/view.js';

export class HealthView extends View {
  /** Always `ok`: a service that is not answers with an error */
  status!: 'ok';
}
