interface Waiting<Asked, Answer> {
  readonly asked: Asked;
  readonly resolve: (answer: Answer) => void;
  readonly reject: (reason: unknown) => void;
}

/**
 * Work that costs little more for many than for one. What is asked for while it is under way waits, and is then done together; whoever asks alone waits for nobody.
 * `work` answers in the order asked, each for itself. Where it fails as a whole, each is tried alone: one that cannot be done takes no other with it.
 */
export class Gather<Asked, Answer> {
  private readonly waiting: Waiting<Asked, Answer>[] = [];
  private busy = false;

  constructor(
    private readonly work: (asked: readonly Asked[]) => Promise<readonly PromiseSettledResult<Answer>[]>,
    private readonly most = 64,
  ) {}

  ask(asked: Asked): Promise<Answer> {
    return new Promise((resolve, reject) => {
      this.waiting.push({ asked, resolve, reject });
      if (!this.busy) void this.run();
    });
  }

  private async run(): Promise<void> {
    this.busy = true;
    while (this.waiting.length > 0) {
      // What comes in the same turn of the event loop came together.
      await new Promise((resolve) => setImmediate(resolve));
      await this.together(this.waiting.splice(0, this.most));
    }
    this.busy = false;
  }

  private async together(batch: readonly Waiting<Asked, Answer>[]): Promise<void> {
    try {
      const answers = await this.work(batch.map(({ asked }) => asked));
      if (answers.length !== batch.length) throw new Error(`${batch.length} were asked for, and ${answers.length} answered`);
      for (const [at, { resolve, reject }] of batch.entries()) {
        const answer = answers[at];
        if (answer?.status === 'fulfilled') resolve(answer.value);
        else reject(answer?.reason);
      }
    } catch (reason) {
      if (batch.length === 1) batch[0]?.reject(reason);
      else await Promise.all(batch.map((one) => this.together([one])));
    }
  }
}
