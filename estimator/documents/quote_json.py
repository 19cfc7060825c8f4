"""A quote as plain data, carrying every number a screen shows."""

from decimal import Decimal
from typing import Any

from estimator.measures import KilogramsPerCubicMetre
from estimator.price.build_up import Price, PriceLine
from estimator.price.money import Money
from estimator.quote.likely import Range
from estimator.quote.quote import Quote
from estimator.quote.recipient import Recipient
from estimator.surfaces.schedule import RoomSchedule, Schedule, Surface
from estimator.surfaces.totals import by_kind
from estimator.treatment.product import Product
from estimator.treatment.solution import Dose, Mix, Solution, Stock, TankFill
from estimator.visit.timetable import Timetable

SCHEMA = "quote/1"

Data = dict[str, Any]


def quote_to_dict(quote: Quote, recipient: Recipient | None = None) -> Data:
    """Return the quote as JSON-ready data.

    Numbers are in SI units that end their keys (``_m2``, ``_m3``, ``_s``), strengths in ppm
    (1 ppm = 1 mg/L); money and price quantities are decimal strings.
    """
    return {
        "schema": SCHEMA,
        "title": quote.title,
        "date": quote.date,
        "recipient": _recipient(recipient) if recipient else None,
        "provisional": quote.provisional,
        "totals": {
            "rooms": len(quote.schedule.rooms),
            "floor_area_m2": quote.schedule.floor_area,
            "treated_m2": quote.schedule.treated,
            "solution_m3": quote.solution.volume,
            "tablets": sum(mix.tablets for mix in quote.solution.mixes),
            "powder_kg": sum(mix.powder for mix in quote.solution.mixes),
            "concentrate_m3": sum(mix.concentrate for mix in quote.solution.mixes),
            "on_site_s": quote.timetable.on_site,
            "person_time_s": quote.timetable.person_time,
            "last_reentry_s": max((room.at for room in quote.timetable.reentry), default=None),
            "total": _money(quote.price.total),
        },
        "schedule": _schedule(quote.schedule),
        "solution": _solution(quote.solution),
        "timetable": _timetable(quote.timetable),
        "price": _price(quote.price),
        "range": _range(quote.range),
        "terms": {
            "valid_until": quote.terms.valid_until,
            "deposit": _money(quote.terms.deposit),
            "visits": quote.terms.visits,
            "every": quote.terms.every,
            "term_total": _money(quote.terms.term_total),
            "term_discount": _decimal(quote.terms.term_discount),
            "fixed": quote.terms.fixed,
        },
        "options": [
            {
                "name": option.name,
                "treated_m2": option.treated,
                "solution_m3": option.volume,
                "on_site_s": option.on_site,
                "price": _price(option.price),
                "range": _range(option.range),
            }
            for option in quote.options
        ],
        "questions": [
            {
                "matter": question.matter.value,
                "says": question.says,
                "narrows": _money(question.narrows),
                "rooms": list(question.rooms),
                "storey": question.storey,
                "opening": question.opening,
            }
            for question in quote.questions
        ],
        "cautions": [
            {
                "slug": caution.slug,
                "where": caution.where.value,
                "text": caution.text,
                "source": caution.source,
            }
            for caution in quote.cautions
        ],
        "assumptions": [
            {
                "aspect": doubt.aspect.value,
                "room": doubt.room,
                "says": doubt.says,
                "confidence": doubt.confidence,
                "relative_error": doubt.relative_error,
            }
            for doubt in quote.assumptions
        ],
        "provenance": {
            "plan_digest": quote.provenance.plan_digest,
            "book_digest": quote.provenance.book_digest,
            "job_digest": quote.provenance.job_digest,
            "version": quote.provenance.version,
            "seed": quote.provenance.seed,
        },
    }


def _recipient(recipient: Recipient) -> Data:
    return {
        "client": recipient.client,
        "address": list(recipient.address),
        "site": recipient.site,
        "site_address": list(recipient.place),
        "number": recipient.number,
        "version": recipient.version or None,
    }


def _schedule(schedule: Schedule) -> Data:
    return {
        "by_kind": {
            kind.value: {
                "gross_m2": total.gross,
                "deducted_m2": total.deducted,
                "net_m2": total.net,
                "treated_m2": total.treated,
            }
            for kind, total in by_kind(schedule).items()
        },
        "rooms": [_room(room) for room in schedule.rooms],
    }


def _room(room: RoomSchedule) -> Data:
    return {
        "room": room.room,
        "name": room.name,
        "use": room.use,
        "use_label": room.use_label,
        "storey": room.storey,
        "floor_area_m2": room.floor_area,
        "perimeter_m": room.perimeter,
        "height_m": room.height,
        "volume_m3": room.volume,
        "openings_area_m2": room.openings_area,
        "treated_m2": room.treated,
        "surfaces": [_surface(surface) for surface in room.surfaces],
    }


def _surface(surface: Surface) -> Data:
    return {
        "kind": surface.kind.value,
        "item": surface.item,
        "label": surface.label,
        "count": surface.count,
        "lie": surface.lie.value,
        "zone": surface.zone,
        "gross_m2": surface.gross,
        "deducted_m2": surface.deducted,
        "net_m2": surface.net,
        "treated_m2": surface.treated,
        "food_contact": surface.food_contact,
        "basis": surface.basis.value,
    }


def _solution(solution: Solution) -> Data:
    return {
        "product": solution.product,
        "product_label": solution.product_label,
        "label": _label(solution.label) if solution.label else None,
        "measuring": {
            "jug_m3": solution.measuring.jug,
            "mark_m3": solution.measuring.mark,
            "scales_kg": solution.measuring.scales,
            "cylinder_m3": solution.measuring.cylinder,
        }
        if solution.measuring
        else None,
        "use_within_s": solution.use_within,
        "use_within_by_label": solution.use_within_by_label,
        "zone_labels": dict(solution.zone_labels),
        "volume_m3": solution.volume,
        "mixes": [_mix(mix) for mix in solution.mixes],
        "doses": [_dose(dose) for dose in solution.doses],
        "wetness": [
            {
                "zone": wet.zone,
                "lie": wet.lie.value,
                "usual_film_m": wet.usual,
                "usual_dries_after_s": wet.usual_dries_after,
                "contact_time_s": wet.contact_time,
                "needed_film_m": wet.needed,
                "most_film_m": wet.most,
                "film_m": wet.film,
                "passes": wet.passes,
                "again_every_s": wet.again_every,
                "stays_wet_s": wet.stays_wet,
                "dries_after_s": wet.dries_after,
                "runs": wet.runs,
                "holds": wet.holds,
                "claimed_film_m": wet.claimed,
                "claimed_dries_after_s": wet.claimed_dries_after,
                "claim_holds": wet.claim_holds,
            }
            for wet in solution.wetness
        ],
        "air": {
            "temperature_k": solution.air.temperature,
            "humidity": solution.air.humidity,
            "speed_m_per_s": solution.air.speed,
        }
        if solution.air
        else None,
        "drying": {
            "fastest_m_per_s": solution.drying.fastest,
            "slowest_m_per_s": solution.drying.slowest,
        }
        if solution.drying
        else None,
        "unconfirmed": list(solution.unconfirmed),
        "warnings": list(solution.warnings),
    }


def _label(product: Product) -> Data:
    """Return what was read of the label; null where it was not."""
    return {
        "active": product.active,
        "form": product.form.value,
        "available_per_tablet_kg": product.available_per_tablet,
        "available_share": product.available_share,
        "available_ppm": _ppm(product.available_strength),
        "basis": product.basis,
        "uses": [
            {
                "label": use.label,
                "least_ppm": _ppm(use.least),
                "most_ppm": _ppm(use.most),
                "contact_time_s": use.contact_time,
                "zones": list(use.zones),
            }
            for use in product.uses
        ],
        "most_ppm": _ppm(product.most),
        "charged_mist": product.charged_mist,
        "droplet_least_m": product.droplet_least,
        "droplet_most_m": product.droplet_most,
        "rinse_above_ppm": _ppm(product.rinse_above),
        "reentry_s": product.reentry,
        "registration": product.registration or None,
        "expires": product.expires or None,
        "mix_keeps_s": product.mix_keeps,
        "strong_first": product.strong_first,
    }


def _mix(mix: Mix) -> Data:
    return {
        "zones": list(mix.zones),
        "wanted_ppm": _ppm(mix.wanted),
        "strength_ppm": _ppm(mix.strength),
        "most_ppm": _ppm(mix.most),
        "contact_time_s": mix.contact_time,
        "needed_m3": mix.needed,
        "made_m3": mix.made,
        "left_over_m3": mix.left_over,
        "tablets": mix.tablets,
        "powder_kg": mix.powder,
        "concentrate_m3": mix.concentrate,
        "fills": [_fill(fill) for fill in mix.fills],
        "stock": _stock(mix.stock) if mix.stock else None,
    }


def _stock(stock: Stock) -> Data:
    return {
        "tablets": stock.tablets,
        "water_m3": stock.water,
        "strength_ppm": _ppm(stock.strength),
        "left_over_m3": stock.left_over,
        "fills": [_fill(fill) for fill in stock.fills],
    }


def _fill(fill: TankFill) -> Data:
    return {
        "volume_m3": fill.volume,
        "tablets": fill.tablets,
        "powder_kg": fill.powder,
        "concentrate_m3": fill.concentrate,
        "water_m3": fill.water,
        "strength_ppm": _ppm(fill.strength),
    }


def _dose(dose: Dose) -> Data:
    return {
        "room": dose.room,
        "zone": dose.zone,
        "strength_ppm": _ppm(dose.strength),
        "area_m2": dose.area,
        "gone_over_m2": dose.gone_over,
        "volume_m3": dose.volume,
        "passes": dose.passes,
        "contact_time_s": dose.contact_time,
        "dries_after_s": dose.dries_after,
        "wiped_m2": dose.wiped,
    }


def _timetable(timetable: Timetable) -> Data:
    return {
        "crew": timetable.crew,
        "sprayers": timetable.sprayers,
        "order": list(timetable.order),
        "path": {room: list(path) for room, path in timetable.path},
        "on_site_s": timetable.on_site,
        "person_time_s": timetable.person_time,
        "lower_bound_s": timetable.lower_bound,
        "over_bound": timetable.over_bound,
        "findings": list(timetable.findings),
        "precautions": [
            {"mark": one.mark, "says": one.says, "source": one.source, "rooms": list(rooms)}
            for one, rooms in timetable.precautions
        ],
        "tasks": [
            {
                "step": task.step.value,
                "room": task.room,
                "person": task.person,
                "start_s": task.start,
                "end_s": task.end,
                "volume_m3": task.volume,
                "strength_ppm": _ppm(task.strength),
            }
            for task in timetable.tasks
        ],
        "reentry": [
            {"room": room.room, "at_s": room.at, "because": room.because}
            for room in timetable.reentry
        ],
    }


def _price(price: Price) -> Data:
    return {
        "costs": [_line(line) for line in price.costs],
        "additions": [_line(line) for line in price.additions],
        "taxes": [_line(line) for line in price.taxes],
        "rounding": [_line(line) for line in price.rounding],
        "cost": _money(price.cost),
        "full_cost": _money(price.full_cost),
        "charge": _money(price.charge),
        "total": _money(price.total),
        "margin": _decimal(price.margin),
        "at_minimum": price.at_minimum,
        "findings": list(price.findings),
    }


def _range(likely: Range) -> Data:
    return {"p10": _money(likely.p10), "p50": _money(likely.p50), "p90": _money(likely.p90)}


def _line(line: PriceLine) -> Data:
    return {
        "kind": line.kind.value,
        "label": line.label,
        "quantity": _decimal(line.quantity),
        "unit": line.unit,
        "rate": _decimal(line.rate),
        "amount": _money(line.amount),
    }


def _money(money: Money) -> Data:
    return {"amount": _decimal(money.amount), "currency": money.currency}


def _decimal(value: Decimal) -> str:
    return f"{value:f}"


def _ppm(strength: KilogramsPerCubicMetre | None) -> float | None:
    """Return a strength in ppm, free of the noise of binary fractions."""
    return None if strength is None else round(strength * 1000, 9)
