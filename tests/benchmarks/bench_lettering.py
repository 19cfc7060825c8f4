"""Names, sizes and scales read off every sample plan, against their exact truth.

Run with ``pytest tests/benchmarks -s``. The sample plans are our own and print their sizes; they
were before our eyes while the lettering was written, so that other plans will fare worse.
"""

import time

from estimator.intake.pictures import open_picture
from estimator.lettering.labels import RoomSize
from estimator.lettering.lettered import lettered, scaled
from estimator.reading.read import read
from estimator.workflow.measuring import standard_book
from estimator.workflow.samples import samples


def test_lettering_of_the_sample_plans(capsys):
    uses = standard_book().surfaces.uses
    within = names_right = names = sizes_right = sizes = 0
    rows = []
    for sample in samples():
        truth, picture = sample.truth(), open_picture(sample.picture)
        began = time.perf_counter()
        plan = read(picture).plan
        read_at = time.perf_counter()
        named = lettered(plan, picture, uses)
        found = scaled(named, picture)
        letters = (time.perf_counter() - read_at) / (read_at - began)
        true = truth.scale.metres_per_px * truth.storeys[0].source.width_px / picture.width_px
        off = found.plan.scale.metres_per_px / true - 1
        within += abs(off) <= 0.03
        printed = {
            room.name.casefold(): sorted(_extents(room.outline.bounds)) for room in truth.rooms
        }
        seen = {part.casefold() for room in found.plan.rooms for part in room.name.split(" / ")}
        names, names_right = names + len(printed), names_right + len(seen & set(printed))
        for room in found.plan.rooms:
            for label in named.labels.in_rooms.get(room.id, ()):
                if isinstance(label, RoomSize) and room.name.casefold() in printed:
                    size = label.sizes.likeliest
                    near = zip(
                        sorted((size.width, size.depth)),
                        printed[room.name.casefold()],
                        strict=True,
                    )
                    sizes += 1
                    sizes_right += all(abs(one - other) <= 0.03 for one, other in near)
        rows.append(f"{sample.title:34s} scale {off:+.2%}, {letters:.1f}× the time of the reading")
    with capsys.disabled():
        print("\n" + "\n".join(rows))
        print(
            f"scale within 3 %: {within} of {len(rows)}; names read right: {names_right} of "
            f"{names}; printed sizes read right: {sizes_right} of {sizes}"
        )
    assert within >= 0.95 * len(rows)
    assert names_right >= 0.95 * names
    assert sizes_right >= 0.95 * sizes


def _extents(bounds):
    left, top, right, bottom = bounds
    return right - left, bottom - top
