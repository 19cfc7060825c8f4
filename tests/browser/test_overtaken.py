"""What stands on the page while Streamlit calls its script, as it may in any order."""

from pathlib import Path

from playwright.sync_api import Page, expect

import estimator.web.table

_SCRIPT = Path(estimator.web.table.__file__).with_name("assets") / "line.js"
_DATA = {"label": "Add a room", "hint": "kitchen 4x3", "done": {}, "refused": []}


def test_words_being_typed_outlive_a_call_that_newer_data_overtook(page: Page):
    page.set_content("<div id='host'></div>")
    page.evaluate(
        """async ([source, data]) => {
          const script = URL.createObjectURL(new Blob([source], {type: 'text/javascript'}));
          const {default: put} = await import(script);
          const parentElement = document.getElementById('host').attachShadow({mode: 'open'});
          window.call = () => put({parentElement, data, setStateValue: () => {}});
          window.cleanUp = window.call();
        }""",
        [_SCRIPT.read_text(), _DATA],
    )
    line = page.get_by_label(_DATA["label"])
    line.click()
    page.keyboard.type("kitchen 4")
    page.evaluate("window.call()(); window.call()")  # cleaned up after at once, as it came too late
    page.keyboard.type("x3")
    expect(line).to_be_focused()
    expect(line).to_have_value("kitchen 4x3")

    left = page.evaluate(
        """() => {
          const host = document.getElementById('host');
          host.remove();
          window.cleanUp();
          return host.shadowRoot.childElementCount;
        }"""
    )
    assert left == 0
