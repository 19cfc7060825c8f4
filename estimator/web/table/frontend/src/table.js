// The drawing table: tools, the paper with the plan, what is chosen, and the talk with Python.

import {button, icon, make, retype, unentered} from './dom.js';
import {area, contains, distance, wallsOf} from './geometry.js';
import {Hand} from './hand.js';
import {HELP, Keys} from './keys.js';
import {Paper} from './paper.js';
import {Sizes} from './sizes.js';
import {Snapping} from './snapping.js';
import {TOOLS, makeTools} from './tools.js';
import css from './table.css';

export class Table {
  constructor(parent, outbox) {
    this.data = null;
    this.rooms = [];
    this.walls = [];
    this.selection = null;
    this.furniture = [];
    this.uses = [];
    this.sizes = new Sizes(null, 'metric');
    this.snapping = new Snapping();
    this.outbox = outbox;
    this.later = null;
    this.snapped = null;
    this.cursor = null;
    this.#build(parent);
    this.paper = new Paper(this.sheet);
    this.tools = makeTools(this);
    this.tool = this.tools.choose;
    this.paper.map.addInteraction(new Hand(this));
    this.keys = new Keys(this);
    this.observer = new ResizeObserver(() => this.paper.map.updateSize());
    this.observer.observe(this.sheet);
    this.#showTool();
  }

  dispose() {
    this.observer.disconnect();
    this.paper.dispose();
    this.root.remove();
    this.style.remove();
  }

  // --- Python's side -----------------------------------------------------------------------

  /** Take what Python says of the plan; while something is being dragged it has to wait. */
  apply(data, send) {
    this.outbox.hear(send, data.done, !this.data);
    if (this.data && data.doc === this.data.doc && (this.tool.isBusy || !this.outbox.isEmpty)) {
      this.later = data;
      return;
    }
    this.later = null;
    const isAnother = !this.data || data.doc !== this.data.doc
      || data.picture?.url !== this.data.picture?.url;
    const hasGrown = !isAnother && !data.picture && !this.data.rooms.length && data.rooms.length;
    if (isAnother) this.tool.cancel();
    if (isAnother || data.about !== this.data.about) this.#learn(data);
    this.data = data;
    this.sizes = new Sizes(data.perUnit, data.units);
    this.rooms = structuredClone(data.rooms);
    this.walls = this.rooms.flatMap(wallsOf);
    this.snapping.setRooms(this.walls);
    if (isAnother) {
      this.cursor = null;
      this.selection = null;
      this.paper.lay({picture: data.picture, perUnit: data.perUnit, extent: data.extent});
    } else if (hasGrown) {
      this.paper.ground.extent = data.extent;
    }
    this.#chosenByPython(data.selected, isAnother);
    this.#notice(data.notice);
    this.#showRooms();
    this.#showBar();
  }

  /** Send a command; what it complains about is shown at that place. */
  post(command, at = null) {
    this.callout.hidden = true;
    this.outbox.post({doc: this.data.doc, storey: this.data.storey, ...command}, at);
  }

  /** What was held back may be shown now; `anew` also when nothing was. */
  settle(anew = false) {
    const {later} = this;
    this.redraw(true);
    if (later && this.outbox.isEmpty) this.apply(later, this.outbox.send);
    else if (anew && this.data) {
      this.rooms = structuredClone(this.data.rooms);
      this.walls = this.rooms.flatMap(wallsOf);
      this.snapping.setRooms(this.walls);
      this.#showRooms();
      this.#showBar();
    }
  }

  // --- for the tools -----------------------------------------------------------------------

  get selected() {
    return this.selection && this.room(this.selection.room);
  }

  room(id) {
    return this.rooms.find(room => room.id === id) ?? null;
  }

  /** The smallest room around a place. */
  roomAt(place) {
    return this.rooms.filter(room => contains(room.rings, place))
      .sort((a, b) => area(a.rings) - area(b.rings))[0] ?? null;
  }

  /** A length in metres in units of the ground. */
  units(metres) {
    return metres / (this.data.perUnit ?? this.data.guessed);
  }

  /** Where a room that is typed is put: beside those there are, or in the middle of what is seen. */
  nextPlace() {
    if (this.data.picture) {
      const [left, top, right, bottom] = this.paper.seen;
      return [left + (right - left) / 3, top + (bottom - top) / 3];
    }
    const corners = this.rooms.flatMap(room => room.rings[0]);
    if (!corners.length) return [0, 0];
    return [Math.max(...corners.map(corner => corner[0])), Math.min(...corners.map(corner => corner[1]))];
  }

  snap(place, context, about = {}) {
    if (context.exact) {
      this.snapped = null;
      return place;
    }
    const {place: found, to} = this.snapping.place(place, context.near, about);
    this.snapped = to ? found : null;
    return found;
  }

  /** Choose something: a room and, in it, a corner, wall, opening or piece. */
  select(found, quietly = false) {
    const before = this.selection?.room ?? null, room = found?.room ?? null;
    this.selection = found;
    for (const one of this.rooms) {
      for (const opening of one.openings) {
        opening.selected = one.id === room && opening.id === found.opening;
      }
      for (const piece of one.pieces) piece.selected = one.id === room && piece.at === found.piece;
    }
    if (before !== room) this.post({do: 'choose', rooms: room ? [room] : []});
    if (!quietly) this.announce(this.#describe(found));
    this.#showRooms();
    this.#showBar();
  }

  /** Show rooms as they come to lie while something is dragged. */
  preview(rooms) {
    this.paper.refresh(rooms, this.selection?.room);
    this.redraw();
  }

  redraw(withBar = false) {
    const marks = this.tool.marks();
    if (this.snapped && this.tool !== this.tools.choose) marks.push(['dot snapped', [this.snapped]]);
    if (this.cursor && this.keys.isShown) marks.push(['dot pointer', [this.cursor]]);
    this.paper.draw(marks);
    if (withBar) this.#showBar();
  }

  /** Write a size beside the pointer; said aloud too when it came about by keyboard. */
  label(text, place = null, aloud = false) {
    this.size.textContent = text;
    this.size.hidden = !text;
    const pixel = text && place && this.paper.pixel(place);
    if (pixel) {
      const [width] = this.paper.map.getSize();
      this.size.style.transform =
        `translate(${Math.min(pixel[0] + 14, width - 190)}px, ${Math.max(pixel[1] - 36, 4)}px)`;
    }
    if (aloud && text) this.announce(text);
  }

  announce(text) {
    clearTimeout(this.saying);
    this.saying = setTimeout(() => { this.status.textContent = text; }, 120);
  }

  complain(says, place) {
    this.says.textContent = says;
    this.callout.hidden = false;
    const pixel = place && this.paper.pixel(place), [width = 0, height = 0] = this.paper.map.getSize() ?? [];
    const left = pixel ? Math.min(Math.max(pixel[0] - 130, 8), Math.max(width - 308, 8)) : 8;
    const top = pixel ? Math.min(Math.max(pixel[1] + 16, 8), Math.max(height - 110, 8)) : 8;
    this.callout.style.left = `${left}px`;
    this.callout.style.top = `${top}px`;
  }

  focusBar() {
    this.bar.querySelector('input')?.focus();
  }

  use(name) {
    this.callout.hidden = true;
    if (this.tool.name !== name) {
      this.tool.stop();
      this.tool = this.tools[name];
      this.snapped = null;
      this.tool.start();
    }
    this.#showTool();
  }

  /** The pointer did something at a place. */
  point(what, place, context) {
    if (!this.data) return false;
    this.keys.isShown = Boolean(context.exact);
    if (!context.exact) this.cursor = null;
    return this.tool[what](place, context);
  }

  // --- within ------------------------------------------------------------------------------

  #build(parent) {
    this.style = make('style');
    this.style.textContent = css;
    this.buttons = new Map();
    const tools = make('div', {class: 'tools', role: 'group', 'aria-label': 'Drawing tools'});
    for (const {name, label, key, path, gap} of TOOLS) {
      const one = make('button', {
        type: 'button', 'aria-pressed': 'false', title: `${label} (${key.toUpperCase()})`,
        class: gap ? 'gap' : '', 'data-tool': name, onclick: () => this.use(name),
      }, icon(path), make('span', {}, label));
      this.buttons.set(name, one);
      tools.append(one);
    }
    const small = (label, says, onclick) => button(label, onclick, {'aria-label': says, title: says});
    const zoom = make('div', {class: 'zoom', role: 'group', 'aria-label': 'View'},
      small('+', 'Nearer', () => this.paper.zoom(1.5)), small('−', 'Farther', () => this.paper.zoom(1 / 1.5)),
      small('⤢', 'The whole plan', () => this.paper.fit(this.data?.extent)));
    this.bar = make('div', {class: 'bar', role: 'group', 'aria-label': 'What is chosen'});
    this.sheet = make('div', {
      class: 'sheet', tabindex: '0', role: 'application', 'aria-label': 'Plan',
      'aria-describedby': 'table-keys',
    });
    this.size = make('div', {class: 'size', hidden: true});
    this.says = make('p');
    this.callout = make('div', {class: 'callout', role: 'alert', hidden: true}, this.says,
      button('Understood', () => { this.callout.hidden = true; }));
    this.status = make('div', {class: 'status', role: 'status', 'aria-live': 'polite'});
    this.hint = make('p', {class: 'hint'});
    this.ways = make('div', {class: 'ways', role: 'group', 'aria-label': 'How things move'});
    const help = make('p', {class: 'unseen', id: 'table-keys'}, HELP);
    this.root = make('div', {class: 'table'},
      tools,
      make('div', {class: 'work'},
        this.bar,
        make('div', {class: 'desk'}, this.sheet, this.size, this.status, this.callout, zoom),
        make('div', {class: 'below'}, this.hint, this.ways, help)));
    // Tests ask it where places of the plan are seen.
    this.root.drawingTable = this;
    parent.append(this.style, this.root);
  }

  #learn({about}) {
    if (!about) return;
    fetch(about).then(answer => answer.json()).then(({furniture, uses, ink}) => {
      this.furniture = furniture;
      this.uses = uses;
      this.snapping.setInk(ink ?? {});
      this.#showBar();
    });
  }

  #chosenByPython(chosen, isAnother) {
    const [room] = chosen;
    if (this.selection && !this.room(this.selection.room)) this.selection = null;
    if ((room ?? null) !== (this.selection?.room ?? null) && (room || isAnother || !chosen.length)) {
      this.selection = room && this.room(room) ? {room} : null;
    }
    const {selection} = this;
    if (!selection) return;
    const here = this.room(selection.room);
    const lies = place => here.rings.flat().some(corner => distance(corner, place) === 0);
    if (selection.corner && !lies(selection.corner)
      || selection.wall && !selection.wall.every(lies)
      || selection.opening !== undefined && !here.openings.some(one => one.id === selection.opening)
      || selection.piece !== undefined && !here.pieces.some(one => one.at === selection.piece)) {
      this.selection = {room: selection.room};
    }
    for (const opening of here.openings) opening.selected = opening.id === this.selection.opening;
    for (const piece of here.pieces) piece.selected = piece.at === this.selection.piece;
  }

  #notice(notice) {
    if (!notice || notice.key === this.noticed) return;
    this.noticed = notice.key;
    const at = notice.client === this.outbox.client ? this.outbox.places.get(notice.seq) : null;
    this.complain(notice.says, at);
  }

  #describe(found) {
    const room = found && this.room(found.room);
    if (!room) return 'Nothing is chosen.';
    if (found.corner) return `A corner of ${room.name}.`;
    if (found.wall) return `A wall of ${room.name}, ${this.sizes.length(distance(...found.wall))}.`;
    if (found.opening !== undefined) {
      return `A ${room.openings.find(one => one.id === found.opening)?.kind} of ${room.name}.`;
    }
    if (found.piece !== undefined) {
      return `${room.pieces.find(one => one.at === found.piece)?.label} in ${room.name}.`;
    }
    return `${room.name}, ${room.size}.`;
  }

  #showRooms() {
    this.paper.showRooms(this.rooms, this.selection?.room);
    this.redraw();
  }

  #showTool() {
    for (const [name, one] of this.buttons) one.setAttribute('aria-pressed', String(name === this.tool.name));
    this.hint.textContent = this.tool.hint;
    this.ways.replaceChildren(...this.tool.ways());
    this.root.dataset.using = this.tool.name;
    this.redraw(true);
  }

  /** Show the fields of the tool, unless somebody is typing into them. */
  #showBar() {
    if (!this.tool) return;
    const shown = this.tool.name === 'choose' && this.selection; // the others show no choice
    const key = JSON.stringify([this.tool.name, shown, this.data?.doc]);
    const active = this.root.getRootNode().activeElement;
    if (key === this.barKey && active && this.bar.contains(active) && active.matches('input, select')) return;
    const typed = key === this.barKey ? unentered(this.bar) : new Map();
    this.barKey = key;
    const parts = this.tool.bar();
    this.bar.replaceChildren(...parts.length ? parts : [make('span', {class: 'idle'}, this.#idle())]);
    retype(this.bar, typed);
  }

  #idle() {
    if (!this.data) return '';
    const {length} = this.rooms;
    return length ? `${length} ${length === 1 ? 'room' : 'rooms'} on this plan` : 'No rooms yet: draw one, or type its sides.';
  }
}

