"""Measures as people write them, read into SI floats and shown again in metric or US units."""

from estimator.quantities.areas import area
from estimator.quantities.coverage import coverage_film, shown_coverage
from estimator.quantities.declared import declared_strength
from estimator.quantities.label_uses import droplet_size, droplets, label_uses
from estimator.quantities.lengths import length
from estimator.quantities.scales import DrawingScale, drawing_scale, sheet_sides
from estimator.quantities.shown import (
    Units,
    shown_area,
    shown_concentration,
    shown_duration,
    shown_film,
    shown_flow,
    shown_length,
    shown_mass,
    shown_pace,
    shown_share,
    shown_speed,
    shown_temperature,
    shown_volume,
)
from estimator.quantities.written import quantity

__all__ = [
    "DrawingScale",
    "Units",
    "area",
    "coverage_film",
    "declared_strength",
    "drawing_scale",
    "droplet_size",
    "droplets",
    "label_uses",
    "length",
    "quantity",
    "sheet_sides",
    "shown_area",
    "shown_concentration",
    "shown_coverage",
    "shown_duration",
    "shown_film",
    "shown_flow",
    "shown_length",
    "shown_mass",
    "shown_pace",
    "shown_share",
    "shown_speed",
    "shown_temperature",
    "shown_volume",
]
