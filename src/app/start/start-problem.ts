/** Why the service cannot start, in one sentence that says what to do. */
export class StartProblem extends Error {
  constructor(sentence: string, options?: ErrorOptions) {
    super(sentence, options);
    this.name = 'StartProblem';
  }
}
