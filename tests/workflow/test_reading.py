import pytest
from shapely.geometry import Polygon

from estimator.errors import EstimatorError, ReadingError, ScaleUnknown, SourceError
from estimator.lettering import lettered as lettering
from estimator.lettering import orientation
from estimator.quantities.scales import drawing_scale
from estimator.workflow import picture_reading, reading
from estimator.workflow.overlays import overlays
from estimator.workflow.pages import File
from estimator.workflow.reading import read_files, read_plan
from estimator.workflow.scaling import DrawnAt, KnownLength, KnownTotal

AREAS = [28.2, 31.2]  # 4.7 m x 6 m and 5.2 m x 6 m


def read(*contents, **how):
    files = [File(name=name, content=content) for name, content in contents]
    return read_files(files, **how)


def floors(plan):
    """Return the areas on each storey, smallest first."""
    return [
        sorted(room.outline.area for room in plan.rooms if room.storey == storey.number)
        for storey in plan.storeys
    ]


def said(plan):
    return " ".join(doubt.says for doubt in plan.doubts)


def test_pages_that_show_plans_are_storeys_and_others_are_left_out_and_said(pages):
    data = pages.text().plan("Ground floor, scale 1:100").text().plan("Scale 1:100").data()
    found = read(("house.pdf", data))
    plan = found.plan
    assert [storey.name for storey in plan.storeys] == ["Ground floor", "Storey 2"]
    assert [storey.source.page for storey in plan.storeys] == [2, 4]
    assert floors(plan) == [pytest.approx(AREAS, rel=5e-3)] * 2
    assert "Pages 1 and 3 of house.pdf show no plan and are left out." in said(plan)
    assert [page.number for page in found.pages] == [2, 4]
    assert len(overlays(found)) == 2


def test_one_page_alone_is_read_when_asked_for(pages, tmp_path):
    data = pages.plan("First floor, scale 1:100").plan("Scale 1:100", widths=(3, 4)).data()
    (tmp_path / "house.pdf").write_bytes(data)
    plan = read_plan(tmp_path / "house.pdf", page=2)
    assert [storey.source.page for storey in plan.storeys] == [2]
    assert floors(plan) == [pytest.approx([18, 24], rel=5e-3)]


def test_several_files_are_storeys_called_as_their_names_say(pages):
    data = pages.plan("Scale 1:100").data()
    plan = read(("ground-floor.pdf", data), ("attic.pdf", data), ("attic.pdf", data)).plan
    assert [storey.name for storey in plan.storeys] == ["Ground floor", "Attic", "Attic"]
    files = [storey.source.file for storey in plan.storeys]
    assert files == ["ground-floor.pdf", "attic.pdf", "attic (2).pdf"]
    assert len({room.id for room in plan.rooms}) == 6


def test_storeys_with_the_same_rooms_are_said_to_be_perhaps_one(pages):
    data = pages.plan("Scale 1:100").plan("Scale 1:100").plan("Scale 1:100", widths=(3, 4)).data()
    plan = read(("house.pdf", data)).plan
    assert len(plan.storeys) == 3
    assert [doubt.says for doubt in plan.doubts if "same rooms" in doubt.says] == [
        "Storey 1 and Storey 2 have the same rooms; where one is the other drawn again, remove it."
    ]


def test_a_broken_file_among_others_is_left_out_and_said(pages):
    plan = read(("a.pdf", pages.plan("Scale 1:100").data()), ("b.pdf", b"%PDF-1.7")).plan
    assert len(plan.rooms) == 2
    assert "b.pdf is left out: the document is damaged" in said(plan)


def test_a_page_that_breaks_the_reader_is_left_out_and_said(pages, monkeypatch):
    whole = picture_reading.vector_plan

    def fragile(data, picture):
        return whole(data, picture) if picture.page == 1 else None

    def broken(_picture):
        raise ValueError("strange pixels")

    monkeypatch.setattr(picture_reading, "vector_plan", fragile)
    monkeypatch.setattr(picture_reading, "read", broken)
    data = pages.plan("Scale 1:100").plan("Scale 1:100").data()
    plan = read(("house.pdf", data)).plan
    assert len(plan.storeys) == 1
    assert "Page 2 of house.pdf" in said(plan)
    with pytest.raises(ReadingError, match="could not be looked for"):
        read(("house.pdf", data), page=2)


@pytest.mark.parametrize(
    ("module", "step"),
    [(orientation, "lines_of"), (lettering, "labels_of"), (lettering, "named")],
)
def test_a_plan_whose_lettering_fails_keeps_its_rooms_and_says_so(pages, monkeypatch, module, step):
    def broken(*_words):
        raise RuntimeError("strange letters")

    monkeypatch.setattr(module, step, broken)
    plan = read(("house.pdf", pages.plan("Scale 1:100").data())).plan
    assert floors(plan) == [pytest.approx(AREAS, rel=5e-3)]  # the file's text says the scale
    assert "Reading its lettering failed" in said(plan)


def test_a_plan_whose_printed_figures_fail_keeps_its_names_and_says_so(pages, monkeypatch):
    def broken(*_words):
        raise RuntimeError("strange figures")

    monkeypatch.setattr(picture_reading, "scaled", broken)
    plan = read(("house.pdf", pages.plan().data())).plan
    assert [room.name for room in plan.rooms] == ["Kitchen", "Office"]
    assert "printed figures failed" in said(plan)
    assert plan.scale.basis.startswith("a guess")


def test_where_nothing_shows_a_plan_one_sentence_says_so(pages):
    text = pages.text().text().data()
    with pytest.raises(ReadingError, match="none of its 2 pages shows a plan;"):
        read(("house.pdf", text))
    with pytest.raises(EstimatorError, match="none shows a plan"):
        read(("house.pdf", text), ("broken.pdf", b"%PDF-1.7"))
    with pytest.raises(SourceError, match="damaged"):
        read(("broken.pdf", b"%PDF-1.7"))


def test_only_so_many_pages_are_looked_at(pages, monkeypatch):
    monkeypatch.setattr(reading, "MOST_PAGES", 1)
    data = pages.plan("Scale 1:100").plan("Scale 1:100").plan("Scale 1:100").data()
    plan = read(("house.pdf", data)).plan
    assert len(plan.storeys) == 1
    assert "Page 2–3 of house.pdf is left out: only the first 1 pages" in said(plan)


def test_a_page_without_figures_takes_the_scale_of_another_of_its_size(pages):
    plan = read(("house.pdf", pages.plan("Scale 1:100").plan().data())).plan
    assert floors(plan)[1] == pytest.approx(AREAS, rel=5e-3)
    assert plan.storeys[1].scale.basis == "page 1, which has the same size"
    assert plan.storeys[1].scale.relative_error >= 0.02


def test_a_known_length_is_one_of_the_first_plan(pages):
    data = pages.text().plan().plan().data()
    bare = read(("house.pdf", data), lettering=False).plan
    left, top, right, _ = bare.rooms[0].outline_px.bounds
    known = KnownLength(start_px=(left, top), end_px=(right, top), length=4.7)
    plan = read(("house.pdf", data), known=known, lettering=False).plan
    assert floors(plan) == [pytest.approx(AREAS, rel=5e-3)] * 2


def test_a_known_total_is_that_of_all_pages_of_one_size(pages):
    data = pages.plan().plan(widths=(3, 4)).data()
    known = KnownTotal(area=28.2 + 31.2 + 18 + 24, with_inner_walls=False)
    plan = read(("house.pdf", data), known=known, lettering=False).plan
    assert floors(plan) == [
        pytest.approx(AREAS, rel=5e-3),
        pytest.approx([18, 24], rel=5e-3),
    ]
    with pytest.raises(ScaleUnknown, match="different sizes"):
        read(("a.pdf", data), ("b.pdf", data), known=known, lettering=False)


def test_a_known_drawing_scale_is_that_of_all_pages(pages):
    data = pages.plan().plan(widths=(3, 4)).data()
    known = DrawnAt(drawing_scale=drawing_scale("1:100"))
    plan = read(("house.pdf", data), known=known, lettering=False).plan
    assert floors(plan)[1] == pytest.approx([18, 24], rel=5e-3)


def test_without_any_scale_everything_is_in_proportion(pages, monkeypatch):
    monkeypatch.setattr(picture_reading, "scaled_by_doors", lambda plan: plan)
    plan = read(("house.pdf", pages.plan().data()), lettering=False).plan
    assert not plan.is_scaled
    assert all(isinstance(room.outline_px, Polygon) for room in plan.rooms)
    first, second = (room.outline_px.area for room in plan.rooms)
    assert first / second == pytest.approx(4.7 / 5.2, rel=1e-3)
