from attrs import evolve
from sessions import session_of


def doubted(plan):
    """The plan with its first room hardly read, and the second not quite."""
    first, second, *others = plan.rooms
    return evolve(
        plan, rooms=(evolve(first, confidence=0.3), evolve(second, confidence=0.8), *others)
    )


def entries(app):
    return [button for button in app.button if str(button.key).startswith("review-")]


def test_a_sure_plan_shows_no_list(app):
    assert entries(app) == []


def test_what_to_look_at_first_is_listed_and_chooses_its_room(app):
    session = session_of(app)
    session.correct(doubted)
    app.run()
    rooms = {room.name: room.id for room in session.work.plan.rooms[:2]}

    listed = entries(app)
    assert len(listed) == 2
    listed[1].click().run()

    (chosen,) = session.chosen
    assert next(name for name, room in rooms.items() if room == chosen) in listed[1].label


def test_an_entry_of_another_storey_shows_that_storey(app):
    session = session_of(app)

    def two_storeys(plan):
        upper = evolve(plan.storeys[0], number=1, name="First floor", source=None)
        rooms = [evolve(room, id=f"up-{room.id}", storey=1) for room in plan.rooms[:1]]
        hardly = [evolve(room, confidence=0.3) for room in rooms]
        return evolve(plan, storeys=(*plan.storeys, upper), rooms=(*plan.rooms, *hardly))

    session.correct(two_storeys)
    app.run()

    entries(app)[0].click().run()

    assert app.session_state[f"storey-{session.edition}"] == "1"
    assert session.chosen == (f"up-{session.work.plan.rooms[0].id}",)
