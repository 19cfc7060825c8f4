// What is taken hold of, shown while it is dragged, and told to Python when it is let go.

import {
  area, bounds, distance, dot, middle, minus, nearestWall, plus, same, shifted, times, unit,
} from '../geometry.js';
import {gapAt} from './fitting.js';

/** Take hold of what was found at a place; null when it is not there any more.
 *  `free` lets a corner turn its walls, `alone` lets a wall leave what faces it. */
export function grab(table, found, place, {free, alone}) {
  const room = table.room(found.room);
  if (!room) return null;
  if (table.selection?.room !== room.id) table.select({room: room.id}, true);
  if (found.grip) return heldRoom(table, room, place);
  if (found.corner) return heldCorner(table, room, found.corner, free);
  if (found.opening !== undefined) return heldOpening(table, room, found.opening);
  if (found.piece !== undefined) return heldPiece(table, room, found.piece, place);
  return heldWall(table, room, found.wall, place, alone);
}

/** `move` shows where a place or movement leads and returns it; `post` tells Python at the end. */
function holding(move, post) {
  const held = {
    moved: null,
    last: null,
    to: (place, context) => { held.last = move(place, context) ?? held.last; },
    done: () => { if (held.last) post(held.last); },
  };
  return held;
}

function heldWall(table, room, [start, end], from, alone) {
  const wall = table.walls.find(one => one.room === room && same(one.start, start) && same(one.end, end));
  if (!wall) return null;
  const isMoving = one => (alone ? one === wall : one.group === wall.group);
  const along = unit(start, end), out = [along[1], -along[0]];
  const push = pushing(table, isMoving);
  return holding((place, context) => {
    let off = dot(minus(place, from), out);
    if (!context.exact) off = table.snapping.offset(wall, off, context.near, isMoving);
    const by = times(out, off);
    push(by);
    table.label(sizeOf(table, room), place, context.exact);
    return by;
  }, by => table.post({do: 'move-wall', room: room.id, wall: [start, end], by, alone}, plus(end, by)));
}

function heldCorner(table, room, corner, free) {
  const meeting = table.walls.filter(wall =>
    wall.room === room && (same(wall.start, corner) || same(wall.end, corner)));
  const isMoving = wall => meeting.some(one => one === wall || one.group === wall.group);
  const push = free ? pulling(table, corner) : pushing(table, isMoving);
  const before = meeting.map(wall => (same(wall.start, corner) ? wall.end : wall.start));
  const without = wall => wall.room === room || (!free && isMoving(wall));
  return holding((place, context) => {
    const to = table.snap(place, context, {before, without});
    push(minus(to, corner));
    table.label(sizeOf(table, room), to, context.exact);
    return to;
  }, to => table.post({do: 'move-corner', room: room.id, corner, to, free}, to));
}

function heldOpening(table, room, id) {
  const opening = room.openings.find(one => one.id === id);
  if (!opening) return null;
  const wide = distance(...opening.ends), at = middle(...opening.ends);
  // The same gap as other rooms have it.
  const isTwin = one => one !== opening && one.kind === opening.kind
    && distance(middle(...one.ends), at) < table.units(0.6);
  const twins = table.rooms.flatMap(one => one.openings).filter(isTwin);
  const rooms = table.rooms.filter(one =>
    one.openings.some(gap => gap === opening || twins.includes(gap)));
  table.select({room: room.id, opening: id}, true);
  return holding(place => {
    const ends = gapAt(table.walls, place, wide, Infinity);
    if (!ends) return null;
    for (const gap of [opening, ...twins]) gap.ends = ends;
    table.preview(rooms);
    return middle(...ends);
  }, to => table.post({do: 'move-opening', room: room.id, opening: id, to}, to));
}

function heldPiece(table, room, at, from) {
  const piece = room.pieces.find(one => one.at === at);
  if (!piece) return null;
  const {ring} = piece;
  table.select({room: room.id, piece: at}, true);
  return holding(place => {
    const by = minus(place, from);
    piece.ring = ring.map(corner => plus(corner, by));
    table.preview([room]);
    return by;
  }, by => table.post({do: 'move-piece', room: room.id, piece: at, by}, plus(from, by)));
}

function heldRoom(table, room, from) {
  const {rings, openings, pieces} = structuredClone({
    rings: room.rings, openings: room.openings, pieces: room.pieces,
  });
  const without = wall => wall.room === room;
  return holding((place, context) => {
    let by = minus(place, from);
    if (!context.exact) by = plus(by, drawnTo(table, rings[0], by, context.near, without));
    const there = one => plus(one, by);
    room.rings = rings.map(ring => ring.map(there));
    room.openings = openings.map(one => ({...one, ends: one.ends.map(there)}));
    room.pieces = pieces.map(one => ({...one, ring: one.ring.map(there)}));
    table.preview([room]);
    return by;
  }, by => table.post({do: 'move-room', room: room.id, by}, plus(from, by)));
}

/** How much further corners that were moved are drawn to something near. */
function drawnTo(table, corners, by, near, without) {
  let best = null;
  for (const corner of corners) {
    const {place, to} = table.snapping.place(plus(corner, by), near, {without});
    const more = minus(place, plus(corner, by));
    if (to && (!best || Math.hypot(...more) < Math.hypot(...best))) best = more;
  }
  return best ?? [0, 0];
}

/** Return what shows walls moved, with the openings in them, in every room they belong to. */
function pushing(table, isMoving) {
  const moving = table.walls.filter(isMoving);
  const rooms = [...new Set(moving.map(wall => wall.room))];
  const before = rooms.map(room => {
    const walls = table.walls.filter(wall => wall.room === room);
    return {
      room, rings: room.rings, openings: room.openings,
      carried: room.openings.map(one => isMoving(nearestWall(walls, middle(...one.ends)).wall)),
      moves: (ring, place) =>
        moving.some(wall => wall.room === room && wall.ring === ring && wall.place === place),
    };
  });
  return by => {
    for (const {room, rings, openings, carried, moves} of before) {
      room.rings = shifted(rings, (ring, place) => (moves(ring, place) ? by : null));
      room.openings = openings.map((one, at) => {
        if (!carried[at]) return one;
        const along = unit(...one.ends), out = [along[1], -along[0]];
        return {...one, ends: one.ends.map(end => plus(end, times(out, dot(by, out))))};
      });
    }
    table.preview(rooms);
  };
}

/** Return what shows a corner moved by itself, with all corners in the same place. */
function pulling(table, corner) {
  const isThere = one => distance(one, corner) < table.units(0.01);
  const rooms = table.rooms.filter(room => room.rings.flat().some(isThere));
  const before = rooms.map(room => room.rings);
  return by => {
    rooms.forEach((room, at) => {
      room.rings = before[at].map(ring => ring.map(one => (isThere(one) ? plus(corner, by) : one)));
    });
    table.preview(rooms);
  };
}

function sizeOf(table, room) {
  const [left, top, right, bottom] = bounds(room.rings[0]);
  return table.sizes.box(right - left, bottom - top, area(room.rings));
}
