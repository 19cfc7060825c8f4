"""What browsers send again until it is acknowledged, heard once each and in order."""

from collections.abc import Iterator, Mapping
from typing import Any

from attrs import define, field

Command = Mapping[str, Any]

_MOST_CLIENTS = 20


@define(kw_only=True)
class Heard:
    """What was heard of one browser tab.

    Parameters
    ----------
    done
        Number of the last command carried out for each element that was on the page; one that is
        taken off the page and put on again is another one.
    """

    done: dict[str, int] = field(factory=dict)

    def news(self, sent: object) -> Iterator[tuple[str, int, Command]]:
        """Yield sender, number and command of what was not heard before; each is then done."""
        if not isinstance(sent, Mapping) or not isinstance(sent.get("edits"), list):
            return
        client = str(sent.get("client"))[:40]
        for command in sent["edits"]:
            number = command.get("seq") if isinstance(command, Mapping) else None
            if not isinstance(number, int) or number <= self.done.get(client, 0):
                continue
            yield client, number, command
            self.done[client] = number
        for old in list(self.done)[:-_MOST_CLIENTS]:
            del self.done[old]
