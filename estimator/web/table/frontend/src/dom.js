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
      if (event.key === 'Enter') enter(input.value, input);
    },
  });
  return make('label', {class: 'field'}, make('span', {}, label), input);
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
