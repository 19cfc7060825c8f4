"""What to do when something goes wrong; the label and the safety data sheet come before it."""

from attrs import frozen


@frozen
class Emergency:
    """What happened, what to do first, and who says so."""

    happened: str
    do: str
    source: str


_LABELS = "first aid as product labels word it, from memory; the label decides"

EMERGENCIES = (
    Emergency(
        "In the eyes",
        "rinse with clean water for 15 to 20 minutes, lenses out after the first 5; get medical "
        "advice at once.",
        _LABELS,
    ),
    Emergency(
        "Breathed in, cough or tight chest",
        "everybody out to fresh air; call emergency services when breathing is hard, even hours "
        "later.",
        _LABELS,
    ),
    Emergency(
        "On skin or clothes",
        "take wet clothes off, rinse with plenty of water for 15 to 20 minutes.",
        _LABELS,
    ),
    Emergency(
        "Swallowed",
        "rinse the mouth, do not bring on vomiting; call a poison centre and have the label ready.",
        _LABELS,
    ),
    Emergency(
        "Sharp smell, or mixed with another product",
        "drop everything, leave, shut the door, keep others out, call the fire brigade.",
        "mixing chlorine with acids or ammonia sets toxic gas free: Washington State Department "
        "of Health; steps are common practice",
    ),
    Emergency(
        "Spill",
        "keep people away and air the place; take it up as the safety data sheet says, keep it "
        "out of storm drains.",
        "common practice",
    ),
    Emergency(
        "Alarm goes off, fire, power cut",
        "leave by the way out, meet outside, count heads; nobody goes back for equipment.",
        "common practice",
    ),
)
