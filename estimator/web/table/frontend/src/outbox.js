// What was drawn and not yet heard of from Python, in order; sent again until it is acknowledged.

export class Outbox {
  constructor() {
    // A table that is taken off the page and put on again is another one: it counts anew.
    this.client = Array.from(crypto.getRandomValues(new Uint32Array(2)), part => part.toString(36)).join('');
    this.waiting = [];
    this.last = 0;
    this.places = new Map();
    this.send = () => {};
  }

  /** Send a command; `at` is where on the ground a complaint about it belongs. */
  post(command, at = null) {
    this.last += 1;
    this.places.set(this.last, at);
    this.waiting.push({seq: this.last, ...command});
    this.send({client: this.client, edits: this.waiting});
    return this.last;
  }

  /** Drop what Python says it has done. */
  acknowledge(done) {
    this.waiting = this.waiting.filter(command => command.seq > done);
  }

  get isEmpty() {
    return !this.waiting.length;
  }
}
