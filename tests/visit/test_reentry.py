import pytest
from attrs import evolve

MINUTE = 60.0
HOUR = 3600.0


@pytest.mark.parametrize(
    ("changes", "mixing_factor", "label", "because"),
    [
        ({}, 1, 0.0, "clearing the air"),
        ({}, 1, 24 * HOUR, "the label"),
        ({"dries_after": 10 * HOUR}, 1, 0.0, "contact time and drying"),
        ({"wiped": 300.0}, 1, 0.0, "the crew's work in the room"),
        ({"wiped": 300.0}, 10, 0.0, "clearing the air"),
    ],
)
def test_the_latest_of_all_decides(work, visit, times, changes, mixing_factor, label, because):
    slow_air = evolve(times, mixing_factor=mixing_factor)

    (entry,) = visit(work("a", **changes), times=slow_air, label_reentry=label).reentry

    assert entry.because.startswith(because)


def test_the_label_counts_from_the_end_of_spraying(work, visit):
    (entry,) = visit(work("a"), label_reentry=4 * HOUR).reentry

    assert entry.at == (27 + 10) * MINUTE + 4 * HOUR


def test_an_unread_label_is_said(work, visit):
    (entry,) = visit(work("a"), label_reentry=None).reentry

    assert entry.because.endswith("the label's own time must still be confirmed")


def test_clearing_names_its_source_and_is_never_called_safe(work, visit):
    (entry,) = visit(work("a"), label_reentry=0.0).reentry

    assert "CDC 2003, Appendix B" in entry.because
    assert "safe" not in entry.because


@pytest.mark.parametrize(
    ("changes", "says"),
    [({"clearing_removal": 1.0}, "no time clears"), ({"mixing_factor": 0.5}, "from 1 to 10")],
)
def test_clearing_that_cannot_be_is_refused(times, changes, says):
    with pytest.raises(ValueError, match=says):
        evolve(times, **changes)
