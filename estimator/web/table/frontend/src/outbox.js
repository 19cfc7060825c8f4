// What was drawn or typed and not yet heard of from Python, in order; sent again until it is acknowledged.
// It outlives what is on the page, since an element may be put elsewhere before Python has answered.

export class Outbox {
  constructor() {
    this.client = Array.from(crypto.getRandomValues(new Uint32Array(2)), part => part.toString(36)).join('');
    this.waiting = [];
    this.last = 0;
    this.places = new Map();
    this.send = () => {};
  }

  /** Drop what Python says it has done; an element new on the page sends what is still waiting. */
  hear(send, done, isNew) {
    const last = done[this.client] ?? 0;
    this.send = send;
    this.waiting = this.waiting.filter(command => command.seq > last);
    if (isNew && !this.isEmpty) this.#sendAll();
  }

  /** Send a command; `at` is where on the ground a complaint about it belongs. */
  post(command, at = null) {
    this.last += 1;
    this.places.set(this.last, at);
    this.waiting.push({seq: this.last, ...command});
    this.#sendAll();
    return this.last;
  }

  get isEmpty() {
    return !this.waiting.length;
  }

  #sendAll() {
    this.send({client: this.client, edits: this.waiting});
  }
}
