// What was typed is not on this phone, and why.

export class NotKept extends Error {
  // `why` is a word of `words.js`: denied, full, broken, newer, closed, gone, raced, no-job, undo-...
  constructor(why, cause) {
    super(`not kept: ${why}`);
    this.why = why;
    this.cause = cause;
  }
}
