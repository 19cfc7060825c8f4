"""The store of the user: a file in their folder, or the database that ``DATABASE_URL`` names."""

import os
from threading import Lock

from estimator.store.store import Store
from estimator.workflow.older_jobs import take_over
from estimator.workflow.places import user_folder

_lock = Lock()
_opened: dict[str, Store] = {}


def store() -> Store:
    """Return the user's store, opened once; jobs kept as files by earlier versions are taken over.

    Raises
    ------
    StoreError
        When it cannot be reached or opened, or a newer program made it.
    """
    url, folder = os.environ.get("DATABASE_URL", "").strip(), user_folder()
    place = url or str(folder)
    with _lock:
        if place not in _opened:
            for other in list(_opened):
                _opened.pop(other).close()
            found = Store.on_server(url) if url else Store.in_folder(folder)
            take_over(found.jobs, folder / "jobs")
            _opened[place] = found
        return _opened[place]
