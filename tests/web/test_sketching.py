from sessions import session_of
from streamlit.testing.v1 import AppTest

from estimator.web.plan.sketching import Lines, take_lines


def names(app: AppTest) -> list[str]:
    return [room.name for room in session_of(app).work.plan.rooms]


class Hands:
    """Someone at the keyboard: a click, and every key pressed, counts one."""

    def __init__(self, app: AppTest) -> None:
        self.app = app
        self.count = 0
        self.lines = 0

    def click(self, key: str) -> None:
        self.count += 1
        self.app.button(key=key).click().run()

    def open_panel(self) -> None:
        """The panel is on the page from the start, but a person must click to see it."""
        self.count += 1

    def type_line(self, words: str) -> None:
        """Type into the line, which keeps the focus; Enter counts as a key."""
        self.count += len(words) + 1
        self.lines += 1
        state = self.app.session_state
        if "sketch-lines" not in state:
            state["sketch-lines"] = Lines()
        sent = {"client": "here", "edits": [{"seq": self.lines, "words": words}]}
        session = session_of(self.app)
        state["sketch-says"] = take_lines(session, 0, state["sketch-lines"], sent)
        self.app.run()


def begun(app: AppTest) -> Hands:
    hands = Hands(app)
    hands.open_panel()
    hands.click("empty-sketch")
    return hands


def price(app: AppTest) -> str:
    return next(metric.value for metric in app.metric if metric.label == "Price")


def test_a_priced_flat_of_four_stock_rooms_takes_few_clicks(app: AppTest):
    hands = begun(app)
    assert price(app) == "–"
    hands.open_panel()
    for use in ("hall", "bedroom", "bathroom", "kitchen"):
        hands.click(f"stock-{use}")

    assert names(app) == ["Hall", "Bedroom", "Bathroom", "Kitchen"]
    assert price(app) != "–"
    assert hands.count <= 10


def test_a_priced_flat_of_four_measured_rooms_takes_at_most_forty_keys_and_clicks(app: AppTest):
    hands = begun(app)
    hands.count += 1  # a click into the line
    for words in ("hall 4x2", "bed 4x3", "bath 2x2", "den 5x4"):
        hands.type_line(words)

    sizes = [round(room.outline.area, 2) for room in session_of(app).work.plan.rooms]
    assert sizes == [8, 12, 4, 20]
    assert price(app) != "–"
    assert hands.count <= 40


def test_lines_that_arrive_together_or_twice_are_each_taken_once(app: AppTest):
    begun(app)
    lines = Lines()
    said = ["hall 6x2", "ballroom", "bath off the hall", "cellar"]
    sent = {
        "client": "here",
        "edits": [{"seq": at, "words": words} for at, words in enumerate(said, 1)],
    }
    says = take_lines(session_of(app), 0, lines, sent)
    again = take_lines(session_of(app), 0, lines, sent)

    assert names(app) == ["Hall", "Bath"]
    assert [one["words"] for one in lines.refused] == ["ballroom", "cellar"]
    assert says.count("it has no size") == 2
    assert again == ""


def test_each_room_can_be_undone(app: AppTest):
    hands = begun(app)
    hands.type_line("hall 6x2")
    hands.type_line("bath off the hall")
    hands.click("undo")
    assert names(app) == ["Hall"]
    hands.click("undo")
    assert names(app) == []


def test_rooms_there_are_joined_by_words(app: AppTest):
    hands = begun(app)
    for words in ("kitchen 3x3", "dining 4x3", "kitchen opens to dining"):
        hands.type_line(words)
    assert [len(room.openings) for room in session_of(app).work.plan.rooms] == [1, 1]


def test_what_is_no_room_is_said_beside_the_line_and_kept_in_it(app: AppTest):
    hands = begun(app)
    hands.type_line("hall 6x2")
    for words in ("ballroom", "kitchen 0x4", "bath off the moon", "x" * 1_000_000):
        hands.type_line(words)
        assert not app.exception
        assert len(app.error) == 1
        assert app.error[0].value.endswith("\\.")
        assert app.session_state["sketch-lines"].refused[-1]["words"] == words[:2000]
        assert names(app) == ["Hall"]
    hands.type_line("bath 2x2")
    assert not app.error


def test_marks_in_a_name_are_letters(app: AppTest):
    hands = begun(app)
    hands.type_line("<script>alert(1)</script> 3x4")
    assert not app.exception
    assert len(names(app)) <= 1
