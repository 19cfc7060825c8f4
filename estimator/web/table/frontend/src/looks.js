// How the parts of a plan look, in the colours that paper and screen share (palette.py).

import Circle from 'ol/style/Circle.js';
import Fill from 'ol/style/Fill.js';
import RegularShape from 'ol/style/RegularShape.js';
import Stroke from 'ol/style/Stroke.js';
import Style from 'ol/style/Style.js';
import Text from 'ol/style/Text.js';

const INK = '#1f2a37', WHITE = '#ffffff', PETROL = '#0f5c5c', AMBER = '#b7791f', BRICK = '#a33a2b';
const BLUE = '#2f7fb8', PURPLE = '#6a4c93';
const FACE = '"Source Sans", "Source Sans Pro", sans-serif';

const stroke = (color, width, lineDash) => new Stroke({color, width, lineDash, lineCap: 'butt'});
const fill = color => new Fill({color});
const made = new Map();

/** Keep one style for each look, so that panning makes none. */
function kept(key, make) {
  if (made.size > 2000) made.clear();
  if (!made.has(key)) made.set(key, make());
  return made.get(key);
}

export const square = new Style({stroke: stroke('#e6e1d6', 1)});
export const strongSquare = new Style({stroke: stroke('#d0c9ba', 1)});

const GAPS = {
  door: new Style({stroke: stroke(PETROL, 6)}),
  window: [new Style({stroke: stroke(BLUE, 7)}), new Style({stroke: stroke(WHITE, 2)})],
  passage: new Style({stroke: stroke(PURPLE, 6, [5, 5])}),
};
const CHOSEN = new Style({stroke: stroke(BRICK, 9)});

export function ofRoomPart(feature, resolution) {
  const part = feature.get('part'), selected = feature.get('selected');
  if (part === 'room') return roomLook(feature.get('room'), selected, resolution);
  if (part === 'piece') {
    return kept(`piece ${selected}`, () => new Style({
      fill: fill(selected ? 'rgba(163,58,43,.25)' : 'rgba(255,255,255,.55)'),
      stroke: stroke(selected ? BRICK : '#5d6876', selected ? 2.5 : 1.2),
    }));
  }
  return selected ? [CHOSEN].concat(GAPS[part]) : GAPS[part];
}

function roomLook(room, selected) {
  const doubtful = room.sure < 0.6;
  const body = kept(`room ${room.tint} ${selected} ${doubtful}`, () => new Style({
    fill: fill(room.tint + (selected ? 'b8' : '8c')),
    stroke: stroke(selected ? BRICK : doubtful ? AMBER : PETROL, selected ? 3 : 2, doubtful && !selected ? [8, 5] : undefined),
  }));
  const label = kept(`label ${room.name}\n${room.area}`, () => new Style({
    text: new Text({
      text: [room.name || '?', `bold 14px ${FACE}`, '\n', '', room.area || ' ', `13px ${FACE}`],
      fill: fill(INK), stroke: stroke('rgba(255,255,255,.85)', 3),
    }),
  }));
  return [body, label];
}

const mark = (radius, color, inner = WHITE) => new Style({
  image: new Circle({radius, fill: fill(inner), stroke: stroke(color, 2.5)}),
});

const SKETCH = {
  line: new Style({stroke: stroke(BRICK, 2.5)}),
  'line guide': new Style({stroke: stroke(BRICK, 1, [4, 6])}),
  'line wall': new Style({stroke: stroke(BRICK, 5)}),
  'line gap': new Style({stroke: stroke(PETROL, 8)}),
  'line kept': new Style({stroke: stroke(PETROL, 2.5)}),
  area: new Style({stroke: stroke(BRICK, 2.5), fill: fill('rgba(163,58,43,.12)')}),
  'area piece': new Style({stroke: stroke(BRICK, 2), fill: fill('rgba(255,255,255,.7)')}),
  dot: mark(4, BRICK),
  'dot corner': mark(6, BRICK),
  'dot chosen': mark(7, BRICK, BRICK),
  'dot grip': [mark(13, BRICK), new Style({
    image: new RegularShape({points: 4, radius: 8, radius2: 2, fill: fill(BRICK)}),
  })],
  'dot pointer': [
    new Style({image: new RegularShape({points: 4, radius: 15, radius2: 0, stroke: stroke(WHITE, 5)})}),
    new Style({image: new RegularShape({points: 4, radius: 15, radius2: 0, stroke: stroke(INK, 2)})}),
  ],
  'dot snapped': mark(7, PETROL, 'rgba(255,255,255,.4)'),
};

export const ofSketch = feature => SKETCH[feature.get('kind')];
