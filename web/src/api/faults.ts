/** The server answered, and refused: with what to do about it. */
export class Refusal extends Error {
  constructor(
    readonly status: number,
    readonly code: string,
    message: string,
    readonly remedy: string,
    readonly body: unknown,
  ) {
    super(message);
  }
}

/** The server did not answer: it was stopped, or the machine slept. The request may or may not have been done. */
export class NoAnswer extends Error {}

/** The page itself no longer wants the answer. */
export class GivenUp extends Error {}
