// The tool to choose with: rooms, corners, walls, openings and furniture, and to drag them.

import {button, field, make} from '../dom.js';
import {
  bounds, contains, distance, middle, minus, nearestOn, nearestWall, rotated, same,
} from '../geometry.js';
import {grab} from './grabbing.js';
import {Tool} from './tool.js';

export class ChoosingTool extends Tool {
  name = 'choose';
  hint = 'Tap a room, wall, corner, opening or piece to choose it; drag it to correct it.';
  free = false;
  alone = false;
  held = null;

  get isBusy() { return Boolean(this.held); }

  /** What lies at a place. A finger drags walls and corners of the chosen room only. */
  find(place, {near, isTouch}) {
    const {table} = this, chosen = table.selected;
    const rooms = [...table.rooms].sort((a, b) => (b === chosen) - (a === chosen));
    if (chosen) {
      const grip = this.#grip(chosen);
      if (grip && distance(grip, place) < 1.4 * near) return {room: chosen.id, grip: true};
    }
    for (const room of rooms) {
      if (isTouch && room !== chosen) continue;
      for (const corner of room.rings.flat()) {
        if (distance(corner, place) < near) return {room: room.id, corner};
      }
    }
    for (const room of rooms) {
      for (const opening of room.openings) {
        const wall = {start: opening.ends[0], end: opening.ends[1]};
        if (distance(nearestOn(wall, place), place) < near) return {room: room.id, opening: opening.id};
      }
    }
    for (const room of rooms) {
      const piece = room.pieces.find(one => contains([one.ring], place));
      if (piece) return {room: room.id, piece: piece.at};
    }
    const walls = table.walls.filter(wall => !isTouch || wall.room === chosen);
    const inside = table.roomAt(place);
    const own = nearestWall(walls.filter(wall => wall.room === (inside ?? chosen)), place);
    const any = own && own.away < near ? own : nearestWall(walls, place);
    if (any && any.away < near) {
      return {room: any.wall.room.id, wall: [any.wall.start, any.wall.end], at: nearestOn(any.wall, place)};
    }
    return inside ? {room: inside.id} : null;
  }

  down(place, context) {
    const found = this.find(place, context);
    if (!found || !('corner' in found || 'wall' in found || 'opening' in found || 'piece' in found || found.grip)) {
      return false;
    }
    this.#grab(found, place);
    return Boolean(this.held);
  }

  drag(place, context) {
    const {held} = this;
    if (!held) return;
    held.moved = place;
    held.to(place, context);
  }

  up(place, context) {
    const {held} = this;
    if (!held) return;
    if (held.moved && !same(held.moved, place)) held.to(place, context);
    this.held = null;
    if (held.moved) held.done();
    this.table.label('');
    this.table.settle();
  }

  drop() {
    if (!this.held) return;
    this.held = null;
    this.table.label('');
    this.table.settle(true);
  }

  tap(place, context) {
    const found = this.find(place, context);
    const {selection} = this.table;
    if (context.exact && found && isSame(found, selection)) {
      // By keyboard the same key chooses, takes hold and lets go.
      this.#grab(found, place);
      if (this.held) this.table.announce('Taken hold of. Arrow keys move it, Enter lets go, Escape puts it back.');
      return;
    }
    const isTwice = found?.wall && selection?.wall && isSame(found, selection)
      && performance.now() - this.tapped < 400;
    this.tapped = performance.now();
    if (isTwice) {
      this.table.post({do: 'add-corner', room: found.room, at: found.at}, place);
      return;
    }
    this.table.select(found);
  }

  hover(place, context) {
    const found = this.find(place, context);
    const {paper} = this.table;
    let cursor = found ? 'pointer' : '';
    if (found?.wall) {
      const [x, y] = minus(found.wall[1], found.wall[0]).map(Math.abs);
      cursor = x > y ? 'ns-resize' : 'ew-resize';
    } else if (found && ('corner' in found || found.grip || 'opening' in found || 'piece' in found)) {
      cursor = 'move';
    }
    paper.map.getTargetElement().style.cursor = cursor;
  }

  cancel() {
    if (this.held) {
      this.drop();
      return true;
    }
    const chosen = Boolean(this.table.selection);
    if (chosen) this.table.select(null);
    return chosen;
  }

  stop() {
    this.drop();
    this.table.paper.map.getTargetElement().style.cursor = '';
  }

  /** Remove what is chosen. */
  remove() {
    const {selection: chosen} = this.table;
    if (!chosen) return;
    const {room} = chosen;
    if ('corner' in chosen) this.table.post({do: 'remove-corner', room, corner: chosen.corner}, chosen.corner);
    else if ('opening' in chosen) this.table.post({do: 'remove-opening', room, opening: chosen.opening});
    else if ('piece' in chosen) this.table.post({do: 'remove-piece', room, piece: chosen.piece});
    else this.table.post({do: 'remove-room', room});
    this.table.select('opening' in chosen || 'piece' in chosen || 'corner' in chosen ? {room} : null);
  }

  turn(degrees) {
    const {room, piece} = this.table.selection ?? {};
    if (piece === undefined) return;
    const standing = this.table.room(room).pieces.find(one => one.at === piece);
    standing.ring = rotated(standing.ring, degrees * Math.PI / 180);
    this.table.preview([this.table.room(room)]);
    this.table.post({do: 'turn-piece', room, piece, degrees});
  }

  marks() {
    const chosen = this.table.selected, {selection} = this.table;
    if (!chosen) return [];
    const marks = chosen.rings.flat().map(corner =>
      [selection.corner && same(corner, selection.corner) ? 'dot chosen' : 'dot corner', [corner]]);
    if (selection.wall) marks.unshift(['line wall', selection.wall]);
    const grip = this.#grip(chosen);
    if (grip) marks.push(['dot grip', [grip]]);
    return marks;
  }

  ways() {
    const check = (label, name) => make('label', {class: 'check'}, make('input', {
      type: 'checkbox', checked: this[name], onchange: event => { this[name] = event.target.checked; },
    }), label);
    return [check('Corners move freely', 'free'), check('Walls move alone', 'alone')];
  }

  bar() {
    const {selection: chosen, selected: room} = this.table;
    if (!room) return [];
    if ('opening' in chosen) return this.#openingBar(room, chosen);
    if ('piece' in chosen) return this.#pieceBar(room, chosen);
    return this.#roomBar(room, chosen);
  }

  #roomBar(room, chosen) {
    const {table} = this;
    const use = make('select', {
      onchange: event => table.post({do: 'use', room: room.id, use: event.target.value}),
      onkeydown: event => event.stopPropagation(),
    }, ...table.uses.map(one => make('option', {value: one.slug, selected: one.slug === room.use}, one.label)));
    if (!table.uses.some(one => one.slug === room.use)) {
      use.prepend(make('option', {value: room.use, selected: true, disabled: true}, room.use));
    }
    const parts = [
      field('Room', {value: room.name, enter: name => table.post({do: 'rename', room: room.id, name})}),
      make('label', {class: 'field'}, make('span', {}, 'Use'), use),
      make('span', {class: 'reading'}, room.size),
    ];
    if (chosen.corner) parts.push(button('Remove this corner', () => this.remove()));
    else if (chosen.wall) {
      parts.push(
        make('span', {class: 'reading'}, `Wall ${table.sizes.length(distance(...chosen.wall))}`),
        button('Add a corner here', () =>
          table.post({do: 'add-corner', room: room.id, at: chosen.at ?? middle(...chosen.wall)}, chosen.at)),
      );
    } else parts.push(button('Remove the room', () => this.remove()));
    return parts;
  }

  #openingBar(room, chosen) {
    const opening = room.openings.find(one => one.id === chosen.opening);
    if (!opening) return [];
    const width = this.table.sizes.length(distance(...opening.ends));
    return [
      make('span', {class: 'reading'}, `${opening.kind[0].toUpperCase()}${opening.kind.slice(1)} of ${room.name}`),
      field('Width', {value: width, width: '6em', enter: text =>
        this.table.post({do: 'resize-opening', room: room.id, opening: opening.id, width: text}, opening.ends[0])}),
      button('Remove', () => this.remove()),
    ];
  }

  #pieceBar(room, chosen) {
    const piece = room.pieces.find(one => one.at === chosen.piece);
    if (!piece) return [];
    const [a, b, c] = piece.ring;
    const sides = [distance(a, b), distance(b, c)].sort((x, y) => y - x);
    const size = sides.map(side => this.table.sizes.length(side)).join(' × ');
    return [
      make('span', {class: 'reading'}, piece.label),
      field('Size', {value: size, width: '9em', enter: text =>
        this.table.post({do: 'resize-piece', room: room.id, piece: piece.at, sides: text}, a)}),
      button('Turn left', () => this.turn(-15)),
      button('Turn right', () => this.turn(15)),
      button('Quarter turn', () => this.turn(90)),
      button('Remove', () => this.remove()),
    ];
  }

  /** Where the grip is that moves a whole room; rooms on a picture have none, they lie where drawn. */
  #grip(room) {
    if (this.table.data.picture) return null;
    const [left, top, right, bottom] = bounds(room.rings[0]);
    const wide = Math.min(right - left, bottom - top) / this.table.paper.resolution;
    return wide > 90 ? [(left + right) / 2, bottom - 24 * this.table.paper.resolution] : null;
  }

  #grab(found, place) {
    this.held = grab(this.table, found, place, this);
  }
}

function isSame(one, other) {
  if (!other || one.room !== other.room) return false;
  const key = found => JSON.stringify([found.corner, found.wall, found.opening, found.piece, found.grip]);
  return key(one) === key(other);
}
