// Tools that draw something new: rooms by two corners or by their outline, and straight lines.

import {button, field} from '../dom.js';
import {area, bounds, distance} from '../geometry.js';
import {Tool} from './tool.js';

/** What goes from one place to another: by a drag, by two taps, or by two presses of Enter. */
class SpanTool extends Tool {
  from = null;
  to = null;
  isDone = false;
  dragging = false;

  get isBusy() { return this.dragging; }

  down(place, context) {
    if (this.from && !this.isDone) return false;
    this.#begin(place, context);
    this.dragging = true;
    return true;
  }

  drag(place, context) {
    this.#reach(place, context);
  }

  up(place, context) {
    this.dragging = false;
    this.#reach(place, context);
    this.ended();
  }

  drop() {
    if (this.dragging) this.from = this.to = null;
    this.dragging = false;
    this.table.redraw();
  }

  tap(place, context) {
    if (this.from && !this.isDone) {
      this.#reach(place, context);
      this.ended();
      return;
    }
    this.#begin(place, context);
    this.table.announce(this.begun);
    this.table.redraw(true);
  }

  hover(place, context) {
    if (this.from && !this.isDone) this.#reach(place, context);
    else this.table.snap(place, context);
    this.table.redraw();
  }

  cancel() {
    const begun = Boolean(this.from);
    this.from = this.to = null;
    this.isDone = this.dragging = false;
    this.table.label('');
    return begun;
  }

  /** What is said once the first place is chosen. */
  begun = 'First end. Now the other one.';
  /** Both places are chosen. */
  ended() {}
  /** How large it is, in words. */
  size() { return this.table.sizes.length(distance(this.from, this.to)); }

  #begin(place, context) {
    this.from = this.table.snap(place, context);
    this.to = null;
    this.isDone = false;
  }

  #reach(place, context) {
    this.to = this.table.snap(place, context, {before: [this.from]});
    this.table.label(this.size(), this.to, context.exact);
    this.table.redraw();
  }
}

/** Rooms as rectangles: two corners, by a drag or by two taps, or typed sides. */
export class RectangleTool extends SpanTool {
  name = 'rectangle';
  hint = 'Drag from one corner to the opposite one, or tap both. Or type the sides.';
  begun = 'First corner. Now the opposite one.';

  ended() {
    const {from, to} = this;
    this.cancel();
    if (from[0] === to[0] || from[1] === to[1]) {
      this.table.complain('A room needs two sides: draw across, not along a line.', to);
    } else {
      const [left, top, right, bottom] = bounds([from, to]);
      this.table.post({
        do: 'add-room', corners: [[left, top], [right, top], [right, bottom], [left, bottom]],
      }, to);
    }
    this.table.redraw();
  }

  size() {
    const [left, top, right, bottom] = bounds([this.from, this.to]);
    return this.table.sizes.box(right - left, bottom - top, (right - left) * (bottom - top));
  }

  marks() {
    if (!this.from || !this.to) return this.from ? [['dot', [this.from]]] : [];
    const [[x, y], [u, v]] = [this.from, this.to];
    return [['area', [[x, y], [u, y], [u, v], [x, v]]]];
  }

  bar() {
    const enter = (value, input) => {
      if (!value.trim()) return;
      this.table.post({
        do: 'add-sides', sides: value, at: this.from ?? this.table.nextPlace(), towards: this.to,
      }, this.from);
      input.value = '';
      this.cancel();
      this.table.redraw();
    };
    const sides = field('Sides', {
      hint: this.table.sizes.units === 'us' ? "12' × 10' 6\"" : '4.2 × 3.1 m', enter, width: '9.5em',
    });
    const input = sides.querySelector('input');
    return [sides, button('Put it down', () => enter(input.value, input))];
  }
}

/** Rooms of any outline: corner by corner, ended on the first corner. */
export class OutlineTool extends Tool {
  name = 'outline';
  hint = 'Tap corner by corner; tap the first one again, or press Close, to end.';
  corners = [];
  pointer = null;

  tap(place, context) {
    const corner = this.table.snap(place, context, {before: this.corners});
    const [first] = this.corners;
    if (this.corners.length > 2 && distance(corner, first) < context.near) {
      this.finish();
      return;
    }
    if (!this.corners.length || distance(corner, this.corners.at(-1)) > 0) {
      this.corners.push(corner);
      this.table.announce(`Corner ${this.corners.length}.`);
    }
    this.pointer = corner;
    this.table.redraw(true);
  }

  hover(place, context) {
    this.pointer = this.table.snap(place, context, {before: this.corners});
    if (this.corners.length) {
      const side = this.table.sizes.length(distance(this.corners.at(-1), this.pointer));
      const covered = this.corners.length > 1
        ? this.table.sizes.area(area([[...this.corners, this.pointer]])) : '';
      this.table.label(`${side}${covered && ` · ${covered}`}`, this.pointer, context.exact);
    }
    this.table.redraw();
  }

  finish() {
    if (this.corners.length < 3) {
      this.table.complain('A room needs three corners: tap at least three.', this.corners.at(-1));
      return;
    }
    const {corners} = this;
    this.cancel();
    this.table.post({do: 'add-room', corners}, corners.at(-1));
    this.table.redraw(true);
  }

  back() {
    this.corners.pop();
    this.table.redraw(true);
  }

  cancel() {
    const begun = this.corners.length > 0;
    this.corners = [];
    this.pointer = null;
    this.table.label('');
    return begun;
  }

  marks() {
    const marks = this.corners.map(corner => ['dot', [corner]]);
    const line = [...this.corners, this.pointer].filter(Boolean);
    if (line.length > 2) marks.unshift(['area', line]);
    else if (line.length > 1) marks.unshift(['line', line]);
    return marks;
  }

  bar() {
    return [
      button('Close', () => this.finish(), {disabled: this.corners.length < 3}),
      button('Last corner back', () => this.back(), {disabled: !this.corners.length}),
    ];
  }
}

/** A straight line from a place to another: to cut a room, to measure, to set the scale. */
class LineTool extends SpanTool {
  marks() {
    if (!this.from) return [];
    const ends = [['dot', [this.from]]];
    return this.to ? [['line', [this.from, this.to]], ...ends, ['dot', [this.to]]] : ends;
  }
}

export class CutTool extends LineTool {
  name = 'cut';
  hint = 'Draw a line across a room, from wall to wall, to make two of it.';

  ended() {
    const {from, to} = this;
    this.cancel();
    this.table.post({do: 'cut', from, to}, to);
    this.table.redraw(true);
  }
}

export class MeasureTool extends LineTool {
  name = 'measure';
  hint = 'Draw a line to read its length. Nothing is changed.';

  ended() {
    this.isDone = true;
    this.table.announce(this.table.sizes.length(distance(this.from, this.to)));
  }
}

export class ScaleTool extends LineTool {
  name = 'scale';
  hint = 'Draw over something whose length you know, then type how long it is.';

  ended() {
    this.isDone = true;
    this.table.redraw(true);
    this.table.focusBar();
  }

  bar() {
    if (!this.isDone) return [];
    const enter = value => {
      if (!value.trim()) return;
      this.table.post({do: 'scale', from: this.from, to: this.to, length: value}, this.to);
      this.cancel();
      this.table.redraw(true);
    };
    const length = field('It is', {
      hint: this.table.sizes.units === 'us' ? "12' 6\"" : '3.8 m', enter, width: '7em',
    });
    const input = length.querySelector('input');
    return [length, button('Set the scale', () => enter(input.value))];
  }
}
