// The keyboard: a pointer of its own, moved by arrow keys, that does what the mouse does.

import {bounds, distance, middle, plus} from './geometry.js';
import {TOOLS} from './tools.js';

const ARROWS = {ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1]};

// Steps of an arrow key in metres: alone, with Shift, with Alt.
const STEP = 0.1, LONG = 1, SHORT = 0.01;

export const HELP = 'Arrow keys move the pointer by 10 cm, with Shift by 1 m, with Alt by 1 cm. '
  + 'Enter does what a tap does. Page Up and Page Down go from room to room, C from corner to corner, '
  + 'L from wall to wall. Escape breaks off, Delete removes, T turns a piece, plus and minus zoom, 0 shows the whole plan.';

export class Keys {
  constructor(table) {
    this.table = table;
    this.isShown = false;
    table.root.addEventListener('keydown', event => this.#anywhere(event));
    table.sheet.addEventListener('keydown', event => this.#onSheet(event));
    table.sheet.addEventListener('blur', () => { this.isShown = false; table.redraw(); });
  }

  /** Undo, redo and breaking off wherever the focus is on the table, but not while typing. */
  #anywhere(event) {
    event.stopPropagation();
    if (event.key === 'Escape' && !event.defaultPrevented) this.#breakOff();
    if (!(event.ctrlKey || event.metaKey) || event.target.matches?.('input, select')) return;
    const key = event.key.toLowerCase();
    if (key === 'z' || key === 'y') {
      event.preventDefault();
      this.table.post({do: key === 'y' || event.shiftKey ? 'redo' : 'undo'});
    }
  }

  #onSheet(event) {
    if (event.ctrlKey || event.metaKey || !this.table.data) return;
    const {table} = this, {key} = event;
    const tool = !event.altKey && TOOLS.find(one => one.key === key.toLowerCase());
    if (key in ARROWS) this.#step(ARROWS[key], event);
    else if (key === 'Enter' || key === ' ') this.#press();
    else if (key === 'Escape') this.#breakOff();
    else if (key === 'Delete') table.tools.choose.remove();
    else if (key === 'Backspace') table.tool.back();
    else if (key === 'PageDown' || key === 'PageUp') this.#nextRoom(key === 'PageDown' ? 1 : -1);
    else if (key === 'c' || key === 'C') this.#next(room => room.rings.flat());
    else if (key === 'l' || key === 'L') this.#next(room => room.rings.flatMap(ring =>
      ring.map((corner, at) => middle(corner, ring[(at + 1) % ring.length]))));
    else if (key === 't' || key === 'T') table.tools.choose.turn(event.shiftKey ? -15 : 15);
    else if (key === '+' || key === '=') table.paper.zoom(1.5);
    else if (key === '-') table.paper.zoom(1 / 1.5);
    else if (key === '0') table.paper.fit(table.data.extent);
    else if (tool) {
      table.use(tool.name);
      table.announce(`${tool.label}. ${table.tool.hint}`);
    } else return;
    event.preventDefault();
  }

  #context() {
    return {near: 12 * this.table.paper.resolution, exact: true};
  }

  #begin() {
    const [left, top, right, bottom] = this.table.paper.seen;
    this.table.cursor ??= [(left + right) / 2, (top + bottom) / 2].map(part => this.#rounded(part));
    this.isShown = true;
  }

  #rounded(part) {
    const step = this.table.sizes.step(STEP, this.#span());
    return Math.round(part / step) * step;
  }

  #span() {
    const [left, top, right, bottom] = this.table.data.extent;
    return Math.max(right - left, bottom - top);
  }

  #step(way, event) {
    const {table} = this;
    const isFirst = !table.cursor;
    this.#begin();
    const metres = event.shiftKey ? LONG : event.altKey ? SHORT : STEP;
    const by = table.sizes.step(metres, this.#span());
    if (!isFirst) table.cursor = plus(table.cursor, [way[0] * by, way[1] * by]);
    table.paper.follow(table.cursor);
    this.#moved();
  }

  #moved() {
    const {table} = this;
    const {cursor} = table;
    table.point(table.tool.held ? 'drag' : 'hover', cursor, this.#context());
    if (!table.tool.isBusy && table.tool.marks().length === 0) {
      const room = table.roomAt(cursor);
      table.announce(room ? `In ${room.name}.` : 'Outside the rooms.');
    }
    table.redraw();
  }

  #press() {
    const {table} = this;
    this.#begin();
    const {cursor} = table;
    if (table.tool.held) table.point('up', cursor, this.#context());
    else table.point('tap', cursor, this.#context());
    table.redraw();
  }

  #breakOff() {
    const {table} = this;
    if (!table.tool.cancel() && table.tool.name !== 'choose') table.use('choose');
    table.announce('Broken off.');
    table.redraw(true);
  }

  #nextRoom(way) {
    const {table} = this, {rooms} = table;
    if (!rooms.length) return;
    const at = rooms.findIndex(room => room.id === table.selection?.room);
    const room = rooms[(at + way + rooms.length + (at < 0 && way < 0 ? 1 : 0)) % rooms.length];
    table.use('choose');
    table.select({room: room.id});
    const [left, top, right, bottom] = bounds(room.rings[0]);
    this.#goTo([(left + right) / 2, (top + bottom) / 2]);
  }

  /** Go to the next of some places of the chosen room, in turn. */
  #next(places) {
    const room = this.table.selected ?? (this.table.cursor && this.table.roomAt(this.table.cursor));
    if (!room) return;
    const all = places(room);
    const here = this.table.cursor && all.findIndex(place => distance(place, this.table.cursor) < 1e-9);
    this.#goTo(all[((here ?? -1) + 1) % all.length]);
  }

  #goTo(place) {
    this.table.cursor = place;
    this.isShown = true;
    this.table.paper.follow(place);
    this.#moved();
  }
}
