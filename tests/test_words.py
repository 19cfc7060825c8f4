"""What the papers of the project say must be true."""

import re
import tomllib
from pathlib import Path

import pytest

from estimator.cli.main import parser
from estimator.workflow.samples import samples

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text()
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text()
PACKAGES = sorted(path.parent.name for path in (ROOT / "estimator").glob("*/__init__.py"))


def commands():
    return parser()._subparsers._group_actions[0].choices


@pytest.mark.parametrize("name", commands())
def test_every_command_is_in_the_readme_and_every_option_has_help(name):
    assert f"estimator {name}" in README
    for action in commands()[name]._actions:
        assert action.help, f"{name} {action.option_strings} has no help"


def test_options_shown_in_the_readme_exist():
    known = {option for command in commands().values() for option in command._option_string_actions}
    shown = set(re.findall(r"(?<![\w-])--[a-z-]+", README))
    assert shown <= known


def test_the_readmes_python_runs():
    code = re.search(r"```python\n(.*?)```", README, re.DOTALL)[1]
    printed = []
    exec(code, {"print": lambda *words: printed.append(words)})
    assert printed[0] == (36.0, "m² of floor")


def test_files_the_readme_names_exist():
    for name in re.findall(r"\]\(([^)]+)\)|(sample_plans/[\w.-]+)", README):
        assert (ROOT / (name[0] or name[1])).exists()


@pytest.mark.parametrize("name", PACKAGES)
def test_every_package_has_its_place_on_the_map_and_among_the_layers(name):
    layers = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]
    assert f"`{name}`" in DEVELOPERS
    assert any(name in layer.split(" | ") for layer in layers["contracts"][0]["layers"])


def test_there_are_at_least_eight_samples_each_with_its_truth():
    found = samples()
    assert len(found) >= 8
    assert all(sample.truth().is_scaled for sample in found)


def test_no_file_is_longer_than_400_lines():
    long = [
        path.name
        for folder in ("estimator", "tests")
        for path in (ROOT / folder).rglob("*.py")
        if len(path.read_text().splitlines()) > 400
    ]
    assert long == []
