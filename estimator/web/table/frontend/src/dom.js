// Elements made without HTML: whatever the user typed stays text.

/** Make an element; attributes that begin with "on" are listeners, children are nodes or text. */
export function make(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith('on')) element.addEventListener(key.slice(2), value);
    else if (value === true) element.setAttribute(key, '');
    else if (value !== false && value !== null && value !== undefined) element.setAttribute(key, value);
  }
  element.append(...children);
  return element;
}

/** A field with its label, and what happens when it is entered. */
export function field(label, {value = '', hint = '', width = '9em', most = 80, enter}) {
  const input = make('input', {
    type: 'text', value, placeholder: hint, maxlength: most, autocomplete: 'off',
    style: `width: ${width}`,
    onkeydown: event => {
      event.stopPropagation();
      if (event.key !== 'Enter') return;
      enter(input.value, input);
      input.defaultValue = input.value;
    },
  });
  return make('label', {class: 'field'}, make('span', {}, label), input);
}

/** What is typed into the fields within an element and not entered yet, by their labels. */
export function unentered(element) {
  const typed = new Map();
  for (const one of element.querySelectorAll('label.field')) {
    const input = one.querySelector('input');
    if (input && input.value !== input.defaultValue) typed.set(one.textContent, input.value);
  }
  return typed;
}

/** Put what was typed into the fields of the same labels. */
export function retype(element, typed) {
  for (const one of element.querySelectorAll('label.field')) {
    if (typed.has(one.textContent)) one.querySelector('input').value = typed.get(one.textContent);
  }
}

export function button(label, onclick, attributes = {}) {
  return make('button', {type: 'button', onclick, ...attributes}, label);
}

/** A drawing of our own, 20 by 20, for a tool. */
export function icon(path) {
  const space = 'http://www.w3.org/2000/svg';
  const svg = document.createElementNS(space, 'svg');
  svg.setAttribute('viewBox', '0 0 20 20');
  svg.setAttribute('aria-hidden', 'true');
  const drawn = document.createElementNS(space, 'path');
  drawn.setAttribute('d', path);
  svg.append(drawn);
  return svg;
}
