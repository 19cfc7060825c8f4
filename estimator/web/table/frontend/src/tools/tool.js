// What every tool can be told; each answers what concerns it and leaves the rest.

export class Tool {
  constructor(table) {
    this.table = table;
  }

  /** Something is being dragged: what Python says has to wait. */
  get isBusy() { return false; }

  /** The pointer went down; answer whether a drag from there is for this tool. */
  down() { return false; }
  drag() {}
  up() {}
  /** A drag ended where it began, or was broken off. */
  drop() {}
  tap() {}
  hover() {}
  /** Break off what was begun; answer whether there was something. */
  cancel() { return false; }
  /** End what can be ended as it stands. */
  finish() {}
  /** Take the last step back. */
  back() {}
  start() {}
  stop() { this.cancel(); }
  /** What is drawn over the plan: [kind, places] each. */
  marks() { return []; }
  /** Switches that tell how the tool works. */
  ways() { return []; }
  /** Fields and buttons of the tool. */
  bar() { return []; }
}
