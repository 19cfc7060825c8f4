// Places and walls on the ground: [x, y] with y downwards, in pixels of the picture or in metres.

// Walls turned by less than this, as a sine, run the same way; the same figure as in walls.py.
const PARALLEL = 0.06;

export const distance = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const plus = (a, b) => [a[0] + b[0], a[1] + b[1]];
export const minus = (a, b) => [a[0] - b[0], a[1] - b[1]];
export const times = (a, factor) => [a[0] * factor, a[1] * factor];
export const dot = (a, b) => a[0] * b[0] + a[1] * b[1];
export const cross = (a, b) => a[0] * b[1] - a[1] * b[0];
export const middle = (a, b) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
export const same = (a, b) => a[0] === b[0] && a[1] === b[1];

export function unit(a, b) {
  const length = distance(a, b) || 1;
  return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
}

/** Walls of a room: its ring and place in it, start and end. */
export function wallsOf(room) {
  return room.rings.flatMap((ring, at) =>
    ring.map((start, place) => ({
      room, ring: at, place, start, end: ring[(place + 1) % ring.length],
      group: room.groups[at][place],
    })));
}

/** How far along a wall a place lies, seen square to it. */
export const reached = (wall, place) => dot(minus(place, wall.start), unit(wall.start, wall.end));

/** The place on a wall nearest to another. */
export function nearestOn(wall, place) {
  const length = distance(wall.start, wall.end);
  const along = Math.min(Math.max(reached(wall, place), 0), length);
  return plus(wall.start, times(unit(wall.start, wall.end), along));
}

/** The wall nearest to a place and how far it is away; null when there is none. */
export function nearestWall(walls, place) {
  let best = null;
  for (const wall of walls) {
    const away = distance(nearestOn(wall, place), place);
    if (!best || away < best.away) best = {wall, away};
  }
  return best;
}

export function signedArea(ring) {
  let sum = 0;
  for (let at = 0; at < ring.length; at++) sum += cross(ring[at], ring[(at + 1) % ring.length]);
  return sum / 2;
}

export const area = rings => rings.reduce(
  (sum, ring, at) => sum + (at ? -1 : 1) * Math.abs(signedArea(ring)), 0);

export function bounds(places) {
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of places) {
    box[0] = Math.min(box[0], x); box[1] = Math.min(box[1], y);
    box[2] = Math.max(box[2], x); box[3] = Math.max(box[3], y);
  }
  return box;
}

/** Whether a place lies in a shape of several rings. */
export function contains(rings, [x, y]) {
  let inside = false;
  for (const ring of rings) {
    for (let at = 0, before = ring.length - 1; at < ring.length; before = at++) {
      const [ax, ay] = ring[at], [bx, by] = ring[before];
      if ((ay > y) !== (by > y) && x < (bx - ax) * (y - ay) / (by - ay) + ax) inside = !inside;
    }
  }
  return inside;
}

/** The rings of a room with some walls moved: what will come of a drag, shown while it lasts.
 *  `moves(ring, place)` tells how far each wall goes, or nothing. */
export function shifted(rings, moves) {
  return rings.map((ring, at) => {
    const count = ring.length;
    const edge = place => [ring[(place + count) % count], ring[(place + 1 + count) % count]];
    const shift = place => {
      const by = moves(at, (place + count) % count);
      if (!by) return [0, 0];
      const [x, y] = unit(...edge(place));
      return times([y, -x], by[0] * y - by[1] * x);
    };
    return ring.flatMap((corner, place) => {
      const one = shift(place - 1), other = shift(place);
      if (!one[0] && !one[1] && !other[0] && !other[1]) return [corner];
      const moved = plus(corner, one);
      const before = unit(...edge(place - 1)), after = unit(...edge(place));
      const sine = cross(before, after);
      if (Math.abs(sine) > PARALLEL) {
        return [plus(moved, times(before, cross(minus(other, one), after) / sine))];
      }
      return same(one, other) ? [moved] : [moved, plus(corner, other)];
    });
  });
}

export function rotated(ring, by) {
  const centre = times(ring.reduce(plus), 1 / ring.length);
  const [cos, sin] = [Math.cos(by), Math.sin(by)];
  return ring.map(place => {
    const [x, y] = minus(place, centre);
    return plus(centre, [x * cos - y * sin, x * sin + y * cos]);
  });
}

/** The corners of a rectangle about its middle, its length turned by so much. */
export function box(centre, length, depth, turned) {
  const along = [Math.cos(turned), Math.sin(turned)], out = [-along[1], along[0]];
  return [[-1, -1], [1, -1], [1, 1], [-1, 1]].map(([a, b]) =>
    plus(centre, plus(times(along, a * length / 2), times(out, b * depth / 2))));
}
