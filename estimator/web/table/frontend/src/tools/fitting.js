// Tools that put things into rooms: openings into walls, furniture onto floors; and one to join rooms.

import {button, make} from '../dom.js';
import {box, contains, distance, middle, nearestOn, nearestWall, plus, times, unit} from '../geometry.js';
import {Tool} from './tool.js';

const WIDTHS = {door: 0.9, window: 1.2, passage: 1.2};

/** The gap of so wide in the wall nearest to a place; null when none is near enough. */
export function gapAt(walls, place, wide, near) {
  const found = nearestWall(walls, place);
  if (!found || found.away > near) return null;
  const {wall} = found, length = distance(wall.start, wall.end), along = unit(wall.start, wall.end);
  const half = Math.min(wide, length) / 2;
  const reach = distance(wall.start, nearestOn(wall, place));
  const at = Math.min(Math.max(reach, half), length - half);
  return [at - half, at + half].map(away => plus(wall.start, times(along, away)));
}

/** Doors, windows and passages. */
export class OpeningTool extends Tool {
  ends = null;

  constructor(table, kind) {
    super(table);
    this.name = this.kind = kind;
    this.hint = `Tap a wall where the ${kind} is.`;
  }

  hover(place, context) {
    this.ends = gapAt(this.table.walls, place, this.table.units(WIDTHS[this.kind]), 2.5 * context.near);
    this.table.redraw();
  }

  tap(place, context) {
    const reach = Math.max(2.5 * context.near, this.table.units(0.3));
    const ends = gapAt(this.table.walls, place, this.table.units(WIDTHS[this.kind]), reach);
    if (!ends) {
      this.table.complain(`No wall is there: put the ${this.kind} on a wall of a room.`, place);
      return;
    }
    this.table.post({do: 'add-opening', kind: this.kind, at: middle(...ends)}, place);
    this.table.announce(`A ${this.kind} was put into the wall.`);
  }

  cancel() {
    this.ends = null;
    return false;
  }

  marks() {
    return this.ends ? [['line gap', this.ends]] : [];
  }
}

/** Furniture from the book, found by its name. */
export class FurnitureTool extends Tool {
  name = 'furniture';
  hint = 'Choose a piece, then tap where it stands; near a wall it turns its back to it.';
  kind = null;
  sought = '';
  ring = null;

  hover(place) {
    this.ring = this.kind && this.#standing(place).ring;
    this.table.redraw();
  }

  tap(place) {
    if (!this.kind) {
      this.table.complain('Choose a piece of furniture from the list first.', place);
      return;
    }
    const {at, turned} = this.#standing(place);
    this.table.post({do: 'add-piece', kind: this.kind.slug, at, degrees: turned * 180 / Math.PI}, place);
    this.table.announce(`${this.kind.label} was put down.`);
  }

  cancel() {
    const begun = Boolean(this.ring);
    this.ring = null;
    return begun;
  }

  marks() {
    return this.ring ? [['area piece', this.ring]] : [];
  }

  bar() {
    const list = make('div', {class: 'pieces', role: 'group', 'aria-label': 'Furniture'});
    const fill = () => {
      const sought = this.sought.trim().toLowerCase();
      const found = this.table.furniture.filter(kind =>
        kind.label.toLowerCase().includes(sought) || kind.words.some(word => word.includes(sought)));
      list.replaceChildren(...found.slice(0, 40).map(kind => button(kind.label, () => {
        this.kind = kind;
        this.table.announce(`${kind.label} chosen. Tap where it stands.`);
        fill();
      }, {'aria-pressed': String(this.kind?.slug === kind.slug)})));
      if (!found.length) list.replaceChildren('The book has no such piece.');
    };
    const search = make('input', {
      type: 'search', placeholder: 'bed, desk, shelf …', value: this.sought, maxlength: 40,
      oninput: event => { this.sought = event.target.value; fill(); },
      onkeydown: event => event.stopPropagation(),
    });
    fill();
    return [make('label', {class: 'field'}, make('span', {}, 'Find'), search), list];
  }

  /** Where a piece stands whose middle is put there: with its back to a wall that is near. */
  #standing(place) {
    const length = this.table.units(this.kind.length), depth = this.table.units(this.kind.depth);
    const room = this.table.rooms.find(one => contains(one.rings, place));
    const walls = this.table.walls.filter(wall => wall.room === room);
    const found = nearestWall(walls, place);
    if (!found || found.away > depth / 2 + this.table.units(0.4)) {
      return {at: place, turned: 0, ring: box(place, length, depth, 0)};
    }
    const {wall} = found, along = unit(wall.start, wall.end);
    const foot = nearestOn(wall, place), inward = unit(foot, place);
    const at = plus(foot, times(inward, depth / 2));
    const turned = Math.atan2(along[1], along[0]);
    return {at, turned, ring: box(at, length, depth, turned)};
  }
}

/** Two rooms made one. */
export class JoinTool extends Tool {
  name = 'join';
  hint = 'Tap a room, then the one beside it, to make one room of both.';
  first = null;

  start() {
    this.first = this.table.selection?.room ?? null;
    if (this.first) this.hint = 'Tap the room to join with the one that is chosen.';
  }

  tap(place) {
    const room = this.table.roomAt(place);
    if (!room) {
      this.table.complain('No room is there: tap inside a room.', place);
    } else if (!this.first || this.first === room.id) {
      this.first = room.id;
      this.table.select({room: room.id});
      this.table.announce(`${room.name}. Now the room beside it.`);
    } else {
      this.table.post({do: 'join', rooms: [this.first, room.id]}, place);
      this.first = null;
    }
  }

  cancel() {
    const begun = Boolean(this.first);
    this.first = null;
    return begun;
  }
}
