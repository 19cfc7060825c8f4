"""Workers of a Dask cluster; each needs the estimator in the same version, and no shared disk."""

import asyncio
import threading
from concurrent.futures import CancelledError, Future
from importlib import import_module
from importlib.metadata import version
from typing import Any, Self

from estimator.batch.basis import Basis
from estimator.batch.inputs import Source, why_lost
from estimator.batch.row import Row, Status
from estimator.batch.work import refused, worked_out
from estimator.errors import BatchError, EstimatorError

_PATIENCE = 10.0
"""Seconds until a scheduler and its first worker must have answered."""

# Those who read share renderer and network; a worker takes one input at a time.
_one_at_a_time = threading.Lock()


class ClusterWorkers:
    """Workers of the cluster whose scheduler has an address; let go with the block.

    Raises
    ------
    BatchError
        When there is no such cluster, it has no worker, or another version works there.
    """

    def __init__(self, basis: Basis, address: str) -> None:
        self._basis = basis
        self._address = address
        self._client = _client(address)
        try:
            self._executor = _ready(self._client, address, basis.version)
        except BaseException:
            self._client.close()
            raise

    @property
    def at_once(self) -> int:
        """Two inputs for each worker there is, so that none waits for the next."""
        there = self._client.scheduler_info(n_workers=-1).get("workers", ())
        return 2 * max(1, len(there))

    def submit(self, source: Source) -> Future[Row]:
        """Begin with an input: its content goes to the worker."""
        row: Future[Row] = Future()
        try:
            content = source.content()
        except EstimatorError as error:
            row.set_result(refused(source.name, str(error), self._basis))
            return row
        try:
            there = self._executor.submit(_row_there, source.name, content, self._basis)
        except Exception as error:  # whatever a closed client raises
            raise _lost(self._address, error) from error
        there.add_done_callback(lambda done: self._take(done, source, row))
        return row

    def close(self) -> None:
        """Let go of the cluster; what is not done is cancelled there."""
        self._executor.shutdown(wait=False)
        self._client.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _take(self, there: Future[Row], source: Source, row: Future[Row]) -> None:
        from distributed import KilledWorker

        try:
            row.set_result(there.result())
        except KilledWorker:
            says = str(why_lost(source, "the workers that tried it died, one after the other"))
            row.set_result(refused(source.name, says, self._basis, status=Status.LOST))
        except (Exception, CancelledError) as error:
            row.set_exception(_lost(self._address, error))


def _client(address: str) -> Any:
    try:
        distributed: Any = import_module("distributed")
    except ImportError as error:
        raise BatchError(
            address,
            "what talks to clusters is not installed",
            'install it with pip install "estimator[cluster]"',
        ) from error
    try:
        # A client that finds no scheduler goes on looking for it, and says so long afterwards.
        asyncio.run(asyncio.wait_for(_identity(distributed, address), _PATIENCE))
        return distributed.Client(address, timeout=_PATIENCE, set_as_default=False)
    except (OSError, ValueError, TypeError, ImportError) as error:
        raise BatchError(
            address, "no scheduler answers there", "check the address, such as tcp://host:8786"
        ) from error


async def _identity(distributed: Any, address: str) -> None:
    arguments = distributed.Security().get_connection_args("client")
    async with distributed.rpc(address, connection_args=arguments, timeout=_PATIENCE) as scheduler:
        await scheduler.identity()


def _ready(client: Any, address: str, needed: str) -> Any:
    """Return what submits, once a worker is there and all of them have the version needed."""
    try:
        client.wait_for_workers(1, timeout=_PATIENCE)
        versions = set(client.run(version, "estimator").values())
    except TimeoutError as error:
        raise BatchError(address, "the scheduler has no worker", "start one for it") from error
    except Exception as error:  # whatever a worker without the estimator raises
        raise BatchError(
            address, "a worker there has no estimator", "install it for every worker"
        ) from error
    if others := versions - {needed}:
        raise BatchError(
            address,
            f"workers there have version {', '.join(sorted(others))} of the estimator",
            f"install {needed} for every worker",
        )
    return client.get_executor(pure=False)


def _row_there(name: str, content: bytes, basis: Basis) -> Row:
    with _one_at_a_time:
        return worked_out(name, content, basis)


def _lost(address: str, error: BaseException) -> BatchError:
    lost = BatchError(
        address, f"the cluster is lost ({type(error).__name__})", "run the same again to go on"
    )
    lost.__cause__ = error
    return lost
