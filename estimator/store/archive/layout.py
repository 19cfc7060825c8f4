"""What lies where in an archive, schema ``archive/1``.

A zip file with::

    archive.json              the schema, and the SHA-256 of every other file
    README.txt                what is what
    data/*.jsonl              clients, sites, quotes, outcomes, jobs: one a line, all versions
    lists/*.csv               the same as tables for people
    plans, books, pictures    named by their content, as the data refer to them
    rooms/*.geojson           the rooms of every plan
"""

import re

SCHEMA = "archive/1"
MANIFEST = "archive.json"

FILE = re.compile(r"(plans|books|pictures)/[\w.-]{1,100}")
"""Names of what the data refer to."""

README = """\
Everything an estimator kept, in open formats.

data/*.jsonl  JSON, one a line, with every version: what is read when the archive is imported
lists/*.csv   the same as tables (UTF-8); a cell that a spreadsheet would take for a formula has
              an apostrophe before it
plans/        plan.json files: lengths in metres, places in pictures in pixels
books/        furniture, uses, strengths, paces and rates, as they were used
pictures/     what the plans were read from, as given
rooms/        GeoJSON of the rooms of each plan; coordinates are metres on the plan, x to the
              right and y down, and no places on the earth
archive.json  the schema, and the SHA-256 of every other file
"""


def data_name(kind: str) -> str:
    """Return the name of the file of one kind of data."""
    return f"data/{kind}.jsonl"
