"""The store: one database and all that is kept in it."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import URL

from estimator.errors import StoreError
from estimator.store.clients import Clients, Sites
from estimator.store.database import Database, address, file_address
from estimator.store.jobs import Jobs
from estimator.store.outcomes import Outcomes
from estimator.store.quotes import Quotes

FILE = "estimator.db"
"""Name of the database in the folder of a user."""


class Store:
    """Jobs, clients, sites, quotes and outcomes; opened at the newest schema.

    Raises
    ------
    StoreError
        When the database cannot be reached or opened, or a newer program made it.
    """

    def __init__(self, at: URL) -> None:
        self.database = Database(at)
        self.jobs = Jobs(self.database)
        self.clients = Clients(self.database)
        self.sites = Sites(self.database)
        self.quotes = Quotes(self.database)
        self.outcomes = Outcomes(self.database)

    @classmethod
    def in_folder(cls, folder: Path) -> "Store":
        """Open the database that is a file in a folder, made where it lacks."""
        try:
            folder.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise StoreError(
                str(folder), f"nothing can be kept there ({error.strerror})", "choose another"
            ) from error
        return cls(file_address(folder / FILE))

    @classmethod
    def on_server(cls, url: str) -> "Store":
        """Open the database that the text of a ``DATABASE_URL`` names."""
        return cls(address(url))

    @property
    def where(self) -> str:
        """Name or address of the database, without its password."""
        return self.database.where

    @contextmanager
    def together(self) -> Iterator[None]:
        """Make one transaction of all that is saved inside, kept as a whole or not at all."""
        with self.database.writing():
            yield

    def close(self) -> None:
        """Let go of the database."""
        self.database.close()
