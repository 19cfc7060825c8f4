// The map that shows a storey: its picture or squared paper, the rooms, and what is being drawn.

import Feature from 'ol/Feature.js';
import OlMap from 'ol/Map.js';
import View from 'ol/View.js';
import Projection from 'ol/proj/Projection.js';
import ImageLayer from 'ol/layer/Image.js';
import VectorLayer from 'ol/layer/Vector.js';
import VectorImageLayer from 'ol/layer/VectorImage.js';
import ImageStatic from 'ol/source/ImageStatic.js';
import VectorSource from 'ol/source/Vector.js';
import DragPan from 'ol/interaction/DragPan.js';
import MouseWheelZoom from 'ol/interaction/MouseWheelZoom.js';
import PinchZoom from 'ol/interaction/PinchZoom.js';
import LineString from 'ol/geom/LineString.js';
import Point from 'ol/geom/Point.js';
import Polygon from 'ol/geom/Polygon.js';
import {getVectorContext} from 'ol/render.js';
import * as looks from './looks.js';
import {area} from './geometry.js';

// The map counts upwards, the ground downwards.
const up = ([x, y]) => [x, -y];
const closed = ring => [...ring, ring[0]].map(up);

export class Paper {
  constructor(target) {
    this.rooms = new VectorSource();
    this.sketch = new VectorSource();
    this.shown = new Map();
    this.backdrop = new ImageLayer();
    this.ground = {perUnit: 1, picture: null, extent: [0, 0, 12, 9]};
    const squares = new VectorLayer({source: new VectorSource()});
    squares.on('prerender', event => this.#squares(event));
    const layers = [
      this.backdrop,
      squares,
      // While the paper is moved, the rooms are moved as one image.
      new VectorImageLayer({source: this.rooms, style: looks.ofRoomPart, imageRatio: 1.5}),
      new VectorLayer({source: this.sketch, style: looks.ofSketch, updateWhileInteracting: true}),
    ];
    this.map = new OlMap({
      target, layers, controls: [],
      interactions: [new DragPan(), new MouseWheelZoom(), new PinchZoom()],
    });
  }

  /** Lay a storey on the table: nothing of the one before stays. */
  lay(ground) {
    this.ground = ground;
    const [left, top, right, bottom] = ground.extent;
    const extent = [left, -bottom, right, -top];
    const projection = new Projection({code: 'ground', units: 'pixels', extent});
    const {picture} = ground;
    this.backdrop.setSource(picture && new ImageStatic({
      url: picture.url, projection, imageExtent: [0, -picture.height, picture.width, 0],
    }));
    this.map.setView(new View({
      projection, center: [(left + right) / 2, -(top + bottom) / 2], resolution: 1,
      minResolution: Math.max(right - left, bottom - top) / 40000,
      maxResolution: Math.max(right - left, bottom - top) / 120,
      constrainResolution: false, enableRotation: false, multiWorld: true,
    }));
    this.fit();
  }

  /** Show all of it, once the map knows how large it is. */
  fit(extent = this.ground.extent) {
    const [left, top, right, bottom] = extent;
    requestAnimationFrame(() => {
      this.map.updateSize();
      if (this.map.getSize()?.every(side => side > 0)) {
        this.map.getView().fit([left, -bottom, right, -top], {padding: [24, 24, 24, 24]});
      }
    });
  }

  zoom(factor) {
    const view = this.map.getView();
    view.animate({resolution: view.getConstrainedResolution(view.getResolution() / factor), duration: 150});
  }

  /** Ground units to a pixel of the screen. */
  get resolution() {
    return this.map.getView().getResolution() ?? 1;
  }

  place(coordinate) {
    return up(coordinate);
  }

  /** Where a place of the ground is seen, in pixels of the map. */
  pixel(place) {
    return this.map.getPixelFromCoordinate(up(place));
  }

  /** The part of the ground that is seen. */
  get seen() {
    const [left, bottom, right, top] = this.map.getView().calculateExtent(this.map.getSize());
    return [left, -top, right, -bottom];
  }

  /** Bring a place into view when it has left it. */
  follow(place) {
    const pixel = this.pixel(place), size = this.map.getSize();
    if (!pixel || !size) return;
    if (pixel[0] < 20 || pixel[1] < 20 || pixel[0] > size[0] - 20 || pixel[1] > size[1] - 20) {
      this.map.getView().setCenter(up(place));
    }
  }

  showRooms(rooms, selected) {
    this.rooms.clear(true);
    this.shown.clear();
    for (const room of [...rooms].sort((a, b) => area(b.rings) - area(a.rings))) {
      this.#add(room, selected === room.id);
    }
  }

  /** Show rooms anew that were changed. */
  refresh(rooms, selected) {
    for (const room of rooms) {
      for (const feature of this.shown.get(room.id) ?? []) this.rooms.removeFeature(feature);
      this.#add(room, selected === room.id);
    }
  }

  /** Show what is being drawn: [kind, places] each. */
  draw(marks) {
    this.sketch.clear(true);
    this.sketch.addFeatures(marks.map(([kind, places]) => {
      const geometry = kind.startsWith('dot') ? new Point(up(places[0]))
        : kind.startsWith('area') ? new Polygon([closed(places)]) : new LineString(places.map(up));
      return new Feature({geometry, kind});
    }));
  }

  dispose() {
    this.map.setTarget(null);
    this.map.dispose();
  }

  #add(room, selected) {
    const features = [
      new Feature({geometry: new Polygon(room.rings.map(closed)), part: 'room', room, selected}),
      ...room.pieces.map(piece => new Feature({
        geometry: new Polygon([closed(piece.ring)]), part: 'piece', room, selected: piece.selected,
      })),
      ...room.openings.map(opening => new Feature({
        geometry: new LineString(opening.ends.map(up)), part: opening.kind, room,
        selected: opening.selected,
      })),
    ];
    this.shown.set(room.id, features);
    this.rooms.addFeatures(features);
  }

  /** Squared paper under a plan that has no picture: 1 m, and every fifth line stronger. */
  #squares(event) {
    const {picture, perUnit} = this.ground;
    if (picture || !perUnit) return;
    const step = 1 / perUnit, [left, top, right, bottom] = this.seen;
    if (step / this.resolution < 5) return;
    const context = getVectorContext(event);
    const line = (strong, from, to) => {
      context.setStyle(strong ? looks.strongSquare : looks.square);
      context.drawGeometry(new LineString([up(from), up(to)]));
    };
    for (let at = Math.floor(left / step); at <= right / step; at++) {
      line(at % 5 === 0, [at * step, top], [at * step, bottom]);
    }
    for (let at = Math.floor(top / step); at <= bottom / step; at++) {
      line(at % 5 === 0, [left, at * step], [right, at * step]);
    }
  }
}
