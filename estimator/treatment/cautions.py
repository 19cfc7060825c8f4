"""Cautions, worded from published guidance, for the places where decisions are made.

None of them says that anything is safe: the product's label, its safety data sheet, local codes
and licensed practice decide, and every caution gives way to them.
"""

from enum import StrEnum

from attrs import frozen

from estimator.measures import KilogramsPerCubicMetre
from estimator.surfaces.schedule import Lie, Schedule
from estimator.treatment.findings import CORRODES_ABOVE, MUCH_STRONGER
from estimator.treatment.solution import Solution

RINSED_ABOVE: KilogramsPerCubicMetre = 0.2
"""Greatest strength left on surfaces that touch food without a rinse (21 CFR 178.1010(c)(1), from
memory)."""


class Decision(StrEnum):
    """The decision a caution stands beside."""

    STRENGTH = "strength"
    VISIT = "visit"
    QUOTE = "quote"


@frozen(kw_only=True)
class Caution:
    """One caution: where it is shown, what it says, and who says so."""

    slug: str
    where: Decision
    text: str
    source: str


_ALWAYS = (
    Caution(
        slug="label-first",
        where=Decision.STRENGTH,
        text="Follow the product's label and safety data sheet; they come before every figure "
        "here. Using a product at a strength, rate or by a method its label does not give may be "
        "illegal.",
        source='40 CFR 156.10: "It is a violation of Federal law to use this product in a manner '
        'inconsistent with its labeling"',
    ),
    Caution(
        slug="method-on-label",
        where=Decision.STRENGTH,
        text="Spray by charged mist or fog only when the label of the chemical gives directions "
        "for it; the sprayer's own papers do not count.",
        source="US EPA, January 2021: not recommended unless the label specifically includes "
        "directions for fogging, wide-area or electrostatic spraying",
    ),
    Caution(
        slug="clean-first",
        where=Decision.STRENGTH,
        text="Clean first: dirt inactivates chlorine, and without cleaning the result is not "
        "disinfection.",
        source="WHO 2014, Infection prevention and control of epidemic-prone acute respiratory "
        "infections, Annex G; CDC 2023",
    ),
    Caution(
        slug="keep-wet",
        where=Decision.STRENGTH,
        text="The surface must stay visibly wet for the whole contact time on the label; wet it "
        "again when it dries sooner.",
        source="US EPA Science Inventory, on Wood et al. 2021, PLoS ONE 16:e0257434; label "
        "directions",
    ),
    Caution(
        slug="never-mix",
        where=Decision.STRENGTH,
        text="Never mix chlorine products with acids, ammonia, peroxide, alcohol or other "
        "cleaners: toxic gas forms.",
        source="Washington State Department of Health; WHO Q&A 2020",
    ),
    Caution(
        slug="mixing",
        where=Decision.STRENGTH,
        text="Add the chemical to the water, not water to the chemical, in moving air and in "
        "non-metal vessels; make it up fresh and keep it no longer than the label says.",
        source="university and relief-agency water and hygiene guidance, 2020",
    ),
    Caution(
        slug="nobody-in-the-area",
        where=Decision.VISIT,
        text="Nobody but the protected operator is in the area while it is treated, and nobody "
        "returns before the label allows it and it is dry and free of odour. People next door "
        "need separate air.",
        source="UK HSE 2020-21; WHO Q&A 2020",
    ),
    Caution(
        slug="protective-wear",
        where=Decision.VISIT,
        text="Wear disposable gloves, non-vented goggles and the respirator that the label and "
        "the safety data sheet call for. A dust mask stops drops, not chlorine gas.",
        source="29 CFR 1910.132 and 1910.134; university safety sheet 2021; on masks: NIOSH, from "
        "memory",
    ),
    Caution(
        slug="air-clearing",
        where=Decision.VISIT,
        text="Time to clear the air does not by itself mean that people may return: the longest "
        "of label, drying and clearing decides.",
        source="CDC 2003, Environmental Infection Control, Appendix B",
    ),
    Caution(
        slug="ventilation",
        where=Decision.VISIT,
        text="Switch ventilation off while spraying, so that no mist is carried to other rooms, "
        "and bring in all the outside air there is afterwards, unless the label says otherwise.",
        source="common practice; the label decides",
    ),
    Caution(
        slug="detectors",
        where=Decision.VISIT,
        text="Mist can set off smoke detectors: isolate them only with the permit of the owner or "
        "fire authority, keep a fire watch, restore them and log it.",
        source="common practice; NFPA 72 impairment practice, from memory",
    ),
    Caution(
        slug="electrics",
        where=Decision.VISIT,
        text="Switch off electronics and cover them, and keep spray away from sockets, screens and "
        "panels, flames and gas.",
        source="common practice",
    ),
    Caution(
        slug="remove-or-cover",
        where=Decision.VISIT,
        text="Remove or cover food, toys, paper, medicines and pets. Cover aquariums and stop "
        "their pumps: chlorine kills fish.",
        source="common practice; fogging instructions",
    ),
    Caution(
        slug="left-over",
        where=Decision.VISIT,
        text="Left-over solution goes to the foul drain only where local rules allow it, never to "
        "a storm drain.",
        source="common practice; local law decides",
    ),
    Caution(
        slug="not-routine",
        where=Decision.QUOTE,
        text="WHO does not recommend routine spraying or fogging of disinfectants indoors, and "
        "CDC advises against routine disinfectant fogging in patient-care areas; ordinary "
        "cleaning and wiping suffice in most situations.",
        source="WHO, 15 May 2020; CDC 2003 and 2008; CDC, 27 February 2023",
    ),
    Caution(
        slug="sprayed-faces-only",
        where=Decision.QUOTE,
        text="Only faces that are sprayed and stay wet are counted as treated; hidden faces are "
        "not, and no lasting effect is claimed.",
        source="Wood et al. 2021, PLoS ONE 16:e0257434: minimal wrap-around measured",
    ),
    Caution(
        slug="airways",
        where=Decision.QUOTE,
        text="Chlorine irritates the airways. Tell everyone who uses the building beforehand, "
        "people with asthma above all.",
        source="Sastre et al. 2011, Am. J. Ind. Med. 54:293; Fontana et al. 2025, IJERPH 22:942",
    ),
    Caution(
        slug="local-codes",
        where=Decision.QUOTE,
        text="Local codes and licensed practice prevail over this estimate.",
        source="common practice; licensing differs by place",
    ),
)

_CORROSION = Caution(
    slug="metal-and-fabric",
    where=Decision.STRENGTH,
    text="Chlorine may corrode metal and bleach fabric, the more the stronger it is; rinse metal "
    "after the contact time.",
    source="CDC 2008, by laboratory summaries",
)

_STRONG_CORROSION = Caution(
    slug="metal-and-fabric",
    where=Decision.STRENGTH,
    text="Above 500 ppm chlorine corrodes metal and bleaches fabric markedly: keep it off bare "
    "metal, electronics and fabric, and rinse metal after the contact time.",
    source="CDC 2008, by laboratory summaries",
)

_TOO_STRONG = Caution(
    slug="no-stronger-than-wanted",
    where=Decision.STRENGTH,
    text="The solution comes out stronger than it need be: stronger is not better, it gives off "
    "more and leaves more residue. Use smaller tablets, measured powder or a stock.",
    source="UK HSE 2020-21",
)

_FABRIC = Caution(
    slug="soft-furnishings",
    where=Decision.STRENGTH,
    text="Soft furnishings may soak up the solution and give it off later; treat them only as the "
    "label says.",
    source="UK HSE 2020-21",
)

_WIPE_FOOD = Caution(
    slug="food-surfaces",
    where=Decision.VISIT,
    text="Wipe and rinse surfaces that touch food with drinking water after the contact time, as "
    "the label says.",
    source="label directions; common practice",
)

_RINSE_FOOD = Caution(
    slug="food-surfaces",
    where=Decision.VISIT,
    text="The solution is stronger than 200 ppm: wipe and rinse every surface that touches food "
    "with drinking water after the contact time, before it is used.",
    source="21 CFR 178.1010(c)(1), from memory; FDA Food Code",
)


def cautions(schedule: Schedule, solution: Solution) -> tuple[Caution, ...]:
    """Return what must be said beside strength, visit and quote for this job."""
    strongest = max((mix.strength for mix in solution.mixes), default=0.0)
    treated = [surface for room in schedule.rooms for surface in room.surfaces if surface.treated]
    found = [*_ALWAYS, _STRONG_CORROSION if strongest > CORRODES_ABOVE else _CORROSION]
    if any(mix.strength > MUCH_STRONGER * mix.wanted for mix in solution.mixes):
        found.append(_TOO_STRONG)
    if any(surface.lie is Lie.FABRIC for surface in treated):
        found.append(_FABRIC)
    if any(surface.food_contact for surface in treated):
        found.append(_RINSE_FOOD if strongest > RINSED_ABOVE else _WIPE_FOOD)
    order = list(Decision)
    return tuple(sorted(found, key=lambda caution: order.index(caution.where)))
