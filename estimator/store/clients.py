"""Clients and their sites: as they stand, and as they were."""

from estimator.errors import NotFound
from estimator.store.database import Database
from estimator.store.searching import folded, occurring
from estimator.store.tables import ClientRow, SiteRow
from estimator.store.texts import Texts, add_text
from estimator.store.values import Client, Site


class Clients(Texts[Client]):
    """Who pays."""

    def __init__(self, database: Database) -> None:
        super().__init__(database, Client, ClientRow)

    def save(self, client: Client, *, after: int) -> Client:
        """Keep a client, a new one where it has no id, and return it as kept.

        Raises
        ------
        StoreError
            When it has no name.
        StaleVersion
            When somebody else saved since the version ``after``; theirs is kept.
        """
        self._named(client.name)
        with self._database.writing() as session:
            kept = add_text(session, client, after=after)
            session.merge(client_row(kept))
        return kept


class Sites(Texts[Site]):
    """What is treated."""

    def __init__(self, database: Database) -> None:
        super().__init__(database, Site, SiteRow)

    def save(self, site: Site, *, after: int) -> Site:
        """Keep a site, a new one where it has no id, and return it as kept.

        Raises
        ------
        StoreError
            When it has no name.
        NotFound
            When its client is not kept.
        StaleVersion
            When somebody else saved since the version ``after``; theirs is kept.
        """
        self._named(site.name)
        with self._database.writing() as session:
            if site.client and session.get(ClientRow, site.client) is None:
                raise NotFound(site.client, "no such client is kept", "save the client first")
            kept = add_text(session, site, after=after)
            session.merge(site_row(kept))
        return kept

    def find(
        self, words: str = "", *, client: str | None = None, first: int = 0, most: int = 50
    ) -> tuple[Site, ...]:
        """Return sites by name, those in which each of the words occurs.

        Parameters
        ----------
        client
            Id of the client whose they are; empty for sites of nobody's, None for all.
        """
        conditions = occurring(words, SiteRow.words)
        if client is not None:
            conditions.append(SiteRow.client == (client or None))
        return self._found(conditions, first, most)


def client_row(client: Client) -> ClientRow:
    """Return what stands in the table of a client."""
    return ClientRow(
        id=client.id,
        version=client.version,
        name=client.name,
        words=folded(client.name, client.contact, client.address),
    )


def site_row(site: Site) -> SiteRow:
    """Return what stands in the table of a site."""
    return SiteRow(
        id=site.id,
        version=site.version,
        client=site.client or None,
        name=site.name,
        words=folded(site.name, site.address),
    )
