from concurrent.futures import Future

import pytest
from attrs import evolve

from estimator.batch.basis import Basis
from estimator.batch.batch import batch_of, carried_out
from estimator.batch.results import results
from estimator.batch.row import Status
from estimator.batch.worker import row_of
from estimator.errors import BatchError
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.workflow.files import plan_text
from estimator.workflow.quoting import estimate
from estimator.workflow.sketching import sketch_plan


class Here:
    """Workers that do everything at once where they are, and remember what they were asked."""

    at_once = 3

    def __init__(self, basis, *, at_most=1000):
        self.basis = basis
        self.at_most = at_most
        self.asked = []

    def submit(self, source):
        if len(self.asked) == self.at_most:
            raise KeyboardInterrupt
        self.asked.append(source.name)
        row = Future()
        row.set_result(row_of(source, self.basis))
        return row


def carried(folder, basis, **limits):
    """Carry a batch out and return its rows by file, and the workers."""
    workers = Here(basis, **limits)
    batch = batch_of(folder, folder / "results.csv", basis)
    for _ in carried_out(batch, workers):
        pass
    return {row.file: row for row in results(folder / "results.csv")}, workers


def test_every_kind_of_input_becomes_a_row_and_a_bad_one_ends_nothing(tmp_path, basis):
    hall = sketch_plan("hall 6 x 2 m")
    no_size = Plan(rooms=(Room(id="a", name="Hall", use="hall", outline_px=rectangle(9, 9)),))
    (tmp_path / "north").mkdir()
    (tmp_path / "north" / "school.json").write_text(plan_text(hall))
    (tmp_path / "typed-shop.TXT").write_text("\ufeffshop 5 x 4 m\nstore 2 x 2 m", "utf-8")
    (tmp_path / "no-size.json").write_text(plan_text(no_size))
    (tmp_path / "empty.json").write_text(plan_text(Plan()))
    (tmp_path / "blank.png").write_bytes(b"\x89PNG\r\n\x1a\n")
    (tmp_path / "nothing.pdf").touch()
    (tmp_path / "latin.txt").write_bytes("Café 4 x 3 m".encode("latin-1"))
    (tmp_path / "words.txt").write_text("ballroom")
    (tmp_path / ".hidden.txt").write_text("hall 6 x 2 m")

    rows, _ = carried(tmp_path, basis)

    assert {name: row.status for name, row in rows.items()} == {
        "blank.png": Status.FAILED,
        "empty.json": Status.READ,
        "latin.txt": Status.FAILED,
        "no-size.json": Status.READ,
        "north/school.json": Status.QUOTED,
        "nothing.pdf": Status.FAILED,
        "typed-shop.TXT": Status.QUOTED,
        "words.txt": Status.FAILED,
    }
    assert rows["no-size.json"].file == "no-size.json"
    assert rows["no-size.json"].rooms == 1
    for row in rows.values():
        assert bool(row.says) == (row.status is not Status.QUOTED)
    assert "ballroom" in rows["words.txt"].says
    assert "UTF-8" in rows["latin.txt"].says


def test_a_row_says_what_the_quote_of_its_plan_says(tmp_path, basis):
    (tmp_path / "a.txt").write_text("2 offices 4 x 3 m, hall 6 x 2 m, ceilings 2.7 m")
    row = carried(tmp_path, basis)[0]["a.txt"]
    quote = estimate(sketch_plan("2 offices 4 x 3 m, hall 6 x 2 m, ceilings 2.7 m"))

    assert (row.rooms, row.floor) == (3, 36.0)
    assert row.treated == pytest.approx(quote.schedule.treated, abs=0.005)
    assert row.volume == pytest.approx(quote.solution.volume, abs=0.005e-3)
    assert row.on_site == pytest.approx(quote.timetable.on_site, abs=3.01)
    assert (row.price, row.low, row.high) == (
        quote.price.total,
        quote.range.p10,
        quote.range.p90,
    )
    assert row.doubts == len(quote.assumptions)


def test_an_interrupted_batch_goes_on_where_it_stopped_to_the_same_results(plans, basis):
    folder = plans(7)
    whole, _ = carried(folder, basis)
    text = (folder / "results.csv").read_bytes()
    (folder / "results.csv").unlink()

    with pytest.raises(KeyboardInterrupt):
        carried(folder, basis, at_most=6)
    done = {row.file for row in results(folder / "results.csv")}
    assert 3 <= len(done) < 7
    rows, workers = carried(folder, basis)

    assert rows == whole
    assert not done & set(workers.asked)
    assert (folder / "results.csv").read_bytes() == text


def test_only_what_changed_is_done_anew(plans, basis):
    folder = plans(4)
    carried(folder, basis)
    (folder / "site-02.txt").write_text("office 9 x 9 m")
    (folder / "site-03.txt").unlink()
    (folder / "site-05.txt").write_text("hall 3 x 3 m")

    rows, workers = carried(folder, basis)
    assert sorted(workers.asked) == ["site-02.txt", "site-05.txt"]
    assert list(rows) == ["site-01.txt", "site-02.txt", "site-04.txt", "site-05.txt"]
    assert rows["site-02.txt"].floor == 81.0


def test_another_book_job_or_version_prices_everything_anew(plans, basis):
    folder = plans(2)
    carried(folder, basis)
    crew = Basis(book=basis.book, job=evolve(basis.job, crew=4))
    assert len(carried(folder, crew)[1].asked) == 2
    newer = Basis(book=basis.book, job=crew.job, version="99")
    assert len(carried(folder, newer)[1].asked) == 2
    assert carried(folder, newer)[1].asked == []


def test_what_was_lost_is_tried_again_and_what_failed_is_not(plans, basis):
    folder = plans(2)
    (folder / "bad.txt").write_text("ballroom")
    rows, _ = carried(folder, basis)
    list_of_results = folder / "results.csv"
    text = list_of_results.read_text("utf-8")
    at = text.index("site-01.txt,quoted")
    list_of_results.write_text(text[:at] + text[at:].replace("quoted", "lost", 1), "utf-8")

    again, workers = carried(folder, basis)
    assert workers.asked == ["site-01.txt"]
    assert again == rows


def test_only_as_many_inputs_are_begun_as_are_worked_on_at_once(plans, basis):
    class Slow(Here):
        begun = most = 0

        def submit(self, source):
            self.begun += 1
            self.most = max(self.most, self.begun)
            return super().submit(source)

    workers = Slow(basis)
    folder = plans(9)
    for _ in carried_out(batch_of(folder, folder / "results.csv", basis), workers):
        workers.begun -= 1
    assert workers.most <= workers.at_once


@pytest.mark.parametrize("folder", ["missing", "bare"])
def test_a_folder_without_plans_is_refused(tmp_path, basis, folder):
    (tmp_path / "bare").mkdir()
    with pytest.raises(BatchError, match=folder):
        batch_of(tmp_path / folder, tmp_path / "results.csv", basis)
