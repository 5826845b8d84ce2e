// What cannot be worked out: one exception for all modules of the evaluator, with the fault codes of Python.

export const DIVIDE = "work.division-by-zero";
export const RANGE = "work.out-of-range";
export const NEGATIVE = "work.negative";
export const DOMAIN = "work.outside-domain";
export const DRAFT = "work.cannot-be-drawn";

/** A value that cannot be worked out; without a code where something it needs has failed before. */
export class Trouble extends Error {
  constructor(code) {
    super(code);
    this.code = code;
  }
}

export const refuse = (code) => {
  throw new Trouble(code);
};
