// The mouse, the pen and the finger: what they do on the map is told to the tool in use.

import PointerInteraction from 'ol/interaction/Pointer.js';

const SNAP = {mouse: 9, pen: 12, touch: 18};

export class Hand extends PointerInteraction {
  constructor(table) {
    super();
    this.table = table;
    this.grabbed = false;
    this.moved = false;
    table.paper.map.on('click', event => {
      if (event.originalEvent.button === 0) this.#tell('tap', event);
    });
  }

  handleDownEvent(event) {
    const {button} = event.originalEvent;
    if (button !== 0 || this.targetPointers.length > 1) return false;
    this.moved = false;
    this.grabbed = Boolean(this.#tell('down', event));
    return this.grabbed;
  }

  handleDragEvent(event) {
    if (!this.grabbed) return;
    if (this.targetPointers.length > 1) {
      this.grabbed = false;
      this.table.tool.drop();
      return;
    }
    this.moved = true;
    this.#tell('drag', event);
  }

  handleUpEvent(event) {
    if (this.grabbed && this.targetPointers.length === 0) {
      if (this.moved) this.#tell('up', event);
      else this.table.tool.drop();
    }
    if (this.targetPointers.length === 0) this.grabbed = false;
    return this.targetPointers.length > 0;
  }

  handleMoveEvent(event) {
    if (event.originalEvent.pointerType !== 'touch') this.#tell('hover', event);
  }

  #tell(what, event) {
    const kind = event.originalEvent.pointerType || 'mouse';
    const near = (SNAP[kind] ?? SNAP.mouse) * this.table.paper.resolution;
    const place = this.table.paper.place(event.coordinate);
    return this.table.point(what, place, {near, isTouch: kind === 'touch', event: event.originalEvent});
  }
}
