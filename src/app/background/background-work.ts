/** Whether this process takes work from the queue, or only puts work into it. */
export class BackgroundWork {
  constructor(readonly enabled: boolean) {}
}
