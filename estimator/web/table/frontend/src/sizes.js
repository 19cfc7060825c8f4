// Lengths and areas as the rest of the app shows them.

const INCH = 0.0254, FOOT = 0.3048;

export class Sizes {
  /** @param perUnit metres to one unit of the ground; null while nobody knows */
  constructor(perUnit, units) {
    this.perUnit = perUnit;
    this.units = units;
  }

  length(value) {
    if (this.perUnit === null) return `${Math.round(value)} px`;
    const metres = value * this.perUnit;
    if (this.units === 'metric') return `${metres.toFixed(2)} m`;
    const halves = Math.round(metres / INCH * 2);
    const feet = Math.floor(halves / 24), rest = halves % 24;
    const inches = `${Math.floor(rest / 2) || (rest % 2 ? '' : 0)}${rest % 2 ? '½' : ''}`;
    return feet ? `${feet}' ${inches}"` : `${inches}"`;
  }

  area(value) {
    if (this.perUnit === null) return '';
    const metres = value * this.perUnit ** 2;
    return this.units === 'metric'
      ? `${figures(metres)} m²` : `${figures(metres / FOOT ** 2)} ft²`;
  }

  /** Width, depth and area of what lies in a box. */
  box(width, depth, covered) {
    const area = this.area(covered);
    return `${this.length(width)} × ${this.length(depth)}${area && ` · ${area}`}`;
  }

  /** A round step on the ground, about so many metres; a share of the plan without a scale. */
  step(metres, span) {
    return this.perUnit === null ? span * metres / 10 : metres / this.perUnit;
  }
}

function figures(value) {
  return value.toLocaleString('en', {maximumFractionDigits: value < 100 ? 1 : 0});
}
