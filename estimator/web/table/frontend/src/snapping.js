// Where a pointer that comes near something comes to lie: corners, walls, right angles, ink.

import {cross, distance, dot, minus, nearestOn, plus, times, unit} from './geometry.js';

const PARALLEL = 0.02;

export class Snapping {
  constructor() {
    this.walls = [];
    this.ink = [];
    this.inkCorners = [];
  }

  /** Take rooms as they are drawn now. */
  setRooms(walls) {
    this.walls = walls;
  }

  /** Take straight strokes of the picture: [x, y, x, y] each, and corners [x, y]. */
  setInk({lines = [], corners = []}) {
    this.ink = lines.map(([x, y, u, v]) => ({start: [x, y], end: [u, v]}));
    this.inkCorners = corners;
  }

  /** Return the place to take for a pointer, and what it was drawn to.
   *  @param near how far away things still draw, on the ground
   *  @param before corners drawn so far: right angles to them draw too
   *  @param without whether a wall is to be left out */
  place(pointer, near, {before = [], without = () => false} = {}) {
    const corners = this.walls.filter(wall => !without(wall)).map(wall => wall.start);
    const corner = closest(corners, pointer, near) ?? closest(before.slice(0, -1), pointer, near)
      ?? closest(this.inkCorners, pointer, 0.7 * near);
    if (corner) return {place: corner, to: 'corner'};
    const lines = this.#lines(pointer, near, before, without);
    if (!lines.length) return {place: pointer, to: ''};
    lines.sort((a, b) => a.away - b.away);
    const first = lines[0];
    const second = lines.find(line => Math.abs(cross(line.along, first.along)) > 0.3);
    if (second) {
      const sine = cross(first.along, second.along);
      const reach = cross(minus(second.through, first.through), second.along) / sine;
      const meeting = plus(first.through, times(first.along, reach));
      if (distance(meeting, pointer) < 2 * near) return {place: meeting, to: first.to};
    }
    return {place: first.foot, to: first.to};
  }

  /** Return how far a wall that is dragged by so much goes: up to what lies in line with it. */
  offset(wall, by, near, moving) {
    const along = unit(wall.start, wall.end), out = [along[1], -along[0]];
    const length = distance(wall.start, wall.end);
    let best = {off: by, away: near};
    const take = place => {
      const off = dot(minus(place, wall.start), out);
      const beside = dot(minus(place, wall.start), along);
      if (Math.abs(off - by) < best.away && beside > -length && beside < 2 * length) {
        best = {off, away: Math.abs(off - by)};
      }
    };
    for (const one of this.walls) if (!moving(one)) { take(one.start); take(one.end); }
    for (const one of this.ink) {
      if (Math.abs(cross(unit(one.start, one.end), along)) < PARALLEL) take(one.start);
    }
    return best.off;
  }

  #lines(pointer, near, before, without) {
    const lines = [];
    const add = (through, along, foot, to) => {
      const away = distance(foot, pointer);
      if (away < near) lines.push({through, along, foot, to, away: to === 'ink' ? 1.5 * away : away});
    };
    const square = (through, along) =>
      add(through, along, plus(through, times(along, dot(minus(pointer, through), along))), 'square');
    for (const wall of this.walls) {
      if (!without(wall)) add(wall.start, unit(wall.start, wall.end), nearestOn(wall, pointer), 'wall');
    }
    for (const line of this.ink) {
      add(line.start, unit(line.start, line.end), nearestOn(line, pointer), 'ink');
    }
    for (const through of new Set([before.at(-1), before[0]])) {
      if (through) { square(through, [1, 0]); square(through, [0, 1]); }
    }
    if (before.length > 1) {
      const along = unit(before.at(-2), before.at(-1));
      square(before.at(-1), [-along[1], along[0]]);
    }
    return lines;
  }
}

function closest(places, pointer, near) {
  let best = null, least = near;
  for (const place of places) {
    const away = distance(place, pointer);
    if (away < least) { best = place; least = away; }
  }
  return best;
}
