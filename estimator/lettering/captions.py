"""Captions among the lettering: which storey each plan on a sheet is."""

from attrs import evolve

from estimator.intake.storeys import Caption, in_storeys
from estimator.lettering.lettered import Lettered


def by_storeys(found: Lettered) -> Lettered:
    """Return a lettered plan with what stands beside each other on its sheet as storeys."""
    lines = dict.fromkeys(label.line for label in found.labels.elsewhere)
    captions = [Caption(text=line.text, box=line.box_px) for line in lines]
    return evolve(found, plan=in_storeys(found.plan, captions))
