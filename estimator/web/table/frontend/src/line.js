// The line on which rooms are named as they are heard: Enter sends it and empties it at once, so that
// whoever types on loses no letter; what Python refuses comes back into it.

import {button, make} from './dom.js';
import {Outbox} from './outbox.js';
import {entry} from './place.js';
import css from './line.css';

const LONGEST = 2000;

const outbox = new Outbox();

// What came back is known to the page, as the line may move on it; what came back before the page was
// loaded is known from the start.
let known = null;

class Line {
  constructor(parent) {
    this.isNew = true;
    this.back = [];
    this.label = make('span');
    this.input = make('input', {
      type: 'text', autocomplete: 'off', maxlength: LONGEST,
      onkeydown: event => {
        if (event.key === 'Enter' && !event.isComposing) this.#enter();
      },
    });
    this.root = make('div', {class: 'line'},
      make('label', {}, this.label, this.input), button('Add', () => this.#enter()));
    this.style = make('style', {}, css);
    parent.append(this.style, this.root);
  }

  dispose() {
    this.root.remove();
    this.style.remove();
  }

  apply({label, hint, done, refused}, send) {
    this.label.textContent = label;
    this.input.placeholder = hint;
    outbox.hear(send, done, this.isNew);
    this.isNew = false;
    const keys = refused.map(({client, seq}) => `${client}-${seq}`);
    known ??= new Set(keys);
    this.back.push(...refused.filter((_, at) => !known.has(keys[at])).map(({words}) => words));
    keys.forEach(key => known.add(key));
    if (this.input.value || !this.back.length) return;
    this.input.value = this.back.splice(0).join(', ');
  }

  #enter() {
    const words = this.input.value;
    this.input.value = '';
    this.input.focus();
    if (words.trim()) outbox.post({words});
  }
}

export default entry(place => new Line(place));
