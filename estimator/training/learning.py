"""What the network is taught: the loss, and the course of one training."""

import json
import time
from pathlib import Path
from typing import Any, TextIO

import torch
from attrs import asdict, frozen
from torch import Tensor, nn
from torch.distributed import get_rank, get_world_size, is_initialized
from torch.nn import functional
from torch.nn.parallel import DistributedDataParallel
from torch.utils.data import DataLoader, DistributedSampler

from estimator.reading.sight.classes import CLASSES, CONTENTS, NOTHING
from estimator.training.network import PlanNetwork
from estimator.training.supply import DrawnPlans

Batch = tuple[Tensor, Tensor, Tensor, Tensor]
"""Pictures, classes, depth and contents, as ``DrawnPlans`` gives them, stacked."""

# Doors and windows are thin and few, and a missed door merges two rooms.
CLASS_WEIGHTS = (1.0, 1.5, 3.0, 2.0, 1.0)
NOTHING_WEIGHT = 0.3

# Small things are few pixels.
SMALL = ("chair", "refrigerator", "sink", "toilet", "wash_basin", "shower", "washing_machine")
SMALL_WEIGHT = 2.0

# Numbers of the drawings that measure the progress; no training reaches them.
CHECK_FIRST = 2_000_000_000
CHECK_COUNT = 256

_NOTED_EVERY = 50  # steps


@frozen(kw_only=True)
class Course:
    """The settings of one training.

    Parameters
    ----------
    looks
        How often each drawing is shown, turned or mirrored and in another light after the first.
    warm_up
        Steps in which the learning rate rises.
    cool_down
        Share of the steps in which it falls.
    """

    seed: int = 1
    steps: int = 3300
    batch: int = 192
    looks: int = 3
    peak_rate: float = 2e-3
    weight_decay: float = 1e-2
    warm_up: int = 200
    cool_down: float = 0.35
    workers: int = 62


class Teacher(nn.Module):
    """The loss: weighted cross-entropy, overlap of the thin classes, depth, and contents."""

    def __init__(self) -> None:
        super().__init__()
        self.register_buffer("weights", torch.tensor(CLASS_WEIGHTS))
        known = torch.ones(len(CONTENTS))
        known[NOTHING] = NOTHING_WEIGHT
        known[[CONTENTS.index(kind) for kind in SMALL]] = SMALL_WEIGHT
        self.register_buffer("known", known)

    def forward(self, said: tuple[Tensor, Tensor, Tensor], batch: Batch) -> Tensor:
        """Return the loss of what the network said of a batch, a scalar."""
        scores, deep, contents = (part.float() for part in said)
        _, labels, depth, things = batch
        entropy = functional.cross_entropy(scores, labels.long(), weight=self.weights)  # type: ignore[arg-type]
        shares = scores.softmax(dim=1)
        overlap = torch.zeros((), device=scores.device)
        for number in range(1, len(CLASSES) - 1):
            there = (labels == number).float()
            met = (shares[:, number] * there).sum()
            overlap = overlap + 1 - (2 * met + 1) / (shares[:, number].sum() + there.sum() + 1)
        reach = functional.smooth_l1_loss(deep.squeeze(1).sigmoid(), depth.float(), beta=0.1)
        kinds = functional.cross_entropy(contents, things.long(), weight=self.known)  # type: ignore[arg-type]
        return entropy + 0.3 * overlap + 2.0 * reach + 0.4 * kinds


def which_of() -> tuple[int, int]:
    """Return which process of how many this is, each with a processor of its own."""
    return (get_rank(), get_world_size()) if is_initialized() else (0, 1)


def rate(step: int, course: Course) -> float:
    """Return the learning rate: a linear rise, a plain, and a linear fall to nought.

    After Zhai, Kolesnikov, Houlsby & Beyer (2022), *Scaling vision transformers*: the plain lets a
    training that stopped go on longer than it was meant to.
    """
    fall = max(1.0, course.cool_down * course.steps)
    return course.peak_rate * min(1.0, (step + 1) / course.warm_up, (course.steps - step) / fall)


def train(course: Course, folder: Path, device: torch.device) -> PlanNetwork:
    """Train a network by the course and return it, logging to ``folder/log.jsonl``.

    The state is kept in ``folder/state.pt``; a training that was cut off goes on from there. Where
    several processes train together, each takes its share of every batch.
    """
    rank, count = which_of()
    torch.manual_seed(course.seed + rank)
    torch.backends.cudnn.benchmark = True
    network = PlanNetwork().to(device, memory_format=torch.channels_last)
    teach = torch.optim.AdamW(
        network.parameters(), lr=course.peak_rate, weight_decay=course.weight_decay
    )
    done = _restored(folder, network, teach, device)
    teacher = Teacher().to(device)
    taught = DistributedDataParallel(network) if count > 1 else network
    first = course.seed * 10_000_000 + done * course.batch
    plans = DrawnPlans(first, (course.steps - done) * course.batch)
    supply = DataLoader(
        plans,
        batch_size=course.batch // count,
        sampler=DistributedSampler(plans, count, rank, shuffle=False) if count > 1 else None,
        num_workers=course.workers // count,
        pin_memory=device.type == "cuda",
        prefetch_factor=4 if course.workers else None,
    )
    began, running, waited = time.monotonic(), 0.0, 0.0
    with (folder / "log.jsonl").open("a") as log:
        if not rank:
            _note(log, asdict(course) | {"processors": count})
        batches = iter(supply)
        for step in range(done, course.steps):
            asked = time.monotonic()
            parts = next(batches)
            waited += time.monotonic() - asked
            drawn: Batch = tuple(part.to(device, non_blocking=True) for part in parts)
            for group in teach.param_groups:
                group["lr"] = rate(step, course)
            for look in range(course.looks):
                batch = seen_anew(drawn) if look else drawn
                with torch.autocast(
                    device.type, dtype=torch.bfloat16, enabled=device.type == "cuda"
                ):
                    said = taught(as_input(batch[0]))
                loss = teacher(said, batch)
                teach.zero_grad(set_to_none=True)
                loss.backward()
                nn.utils.clip_grad_norm_(network.parameters(), 1.0)
                teach.step()
            running = loss.detach() if step == done else 0.98 * running + 0.02 * loss.detach()
            if not rank and (step % _NOTED_EVERY == 0 or step == course.steps - 1):
                _keep(folder, network, teach, step + 1)
                seconds = time.monotonic() - began
                entry = {
                    "step": step,
                    "loss": round(float(running), 4),
                    "pictures": (step + 1) * course.batch,
                    "pictures_per_second": round((step + 1 - done) * course.batch / seconds, 1),
                    "waited": round(waited / seconds, 2),
                }
                _note(log, entry)
    return network


def seen_anew(batch: Batch) -> Batch:
    """Return a batch turned by a quarter or more, mirrored or not, in another light."""
    quarters, is_mirrored = int(torch.randint(4, ())), bool(torch.randint(2, ()))

    def moved(part: Tensor) -> Tensor:
        part = torch.rot90(part, quarters, (-2, -1))
        return part.flip(-1) if is_mirrored else part

    pictures, *answers = (moved(part) for part in batch)
    size = (len(pictures), 1, 1, 1)
    contrast = torch.empty(size, device=pictures.device).uniform_(0.7, 1.15)
    bright = torch.empty(size, device=pictures.device).uniform_(-25.0, 25.0)
    lit = (pictures.float() - 128) * contrast + 128 + bright
    return (lit.clamp_(0, 255), *answers)  # type: ignore[return-value]


def _restored(
    folder: Path, network: PlanNetwork, teach: torch.optim.Optimizer, device: torch.device
) -> int:
    """Bring back a training that was cut off, and return how many steps it had done."""
    path = folder / "state.pt"
    if not path.exists():
        return 0
    state = torch.load(path, map_location=device, weights_only=True)
    network.load_state_dict(state["network"])
    teach.load_state_dict(state["teach"])
    return int(state["steps"])


def _keep(folder: Path, network: PlanNetwork, teach: torch.optim.Optimizer, steps: int) -> None:
    state = {"network": network.state_dict(), "teach": teach.state_dict(), "steps": steps}
    torch.save(state, folder / "state.tmp")
    (folder / "state.tmp").replace(folder / "state.pt")


def _note(log: TextIO, entry: dict[str, Any]) -> None:
    log.write(json.dumps(entry) + "\n")
    log.flush()
    print(entry, flush=True)


def as_input(pictures: Tensor) -> Tensor:
    """Return pictures 0..255 as the network takes them: float 0..1, channels last."""
    return (pictures.float() / 255.0).contiguous(memory_format=torch.channels_last)


@torch.no_grad()  # type: ignore[untyped-decorator]
def check(network: PlanNetwork, device: torch.device, workers: int) -> dict[str, float]:
    """Return intersection over union of each class and content on drawings in held-out styles."""
    network.eval()
    names = (*CLASSES, *CONTENTS)
    met = torch.zeros(len(names), device=device)
    either = torch.zeros(len(names), device=device)
    plans = DrawnPlans(CHECK_FIRST, CHECK_COUNT, held_out=True)
    for pictures, labels, _, things in DataLoader(plans, batch_size=16, num_workers=workers):
        scores, _, contents = network(as_input(pictures.to(device)))
        pairs = ((scores, labels.to(device), 0), (contents, things.to(device), len(CLASSES)))
        for said, truth, first in pairs:
            found = said.argmax(dim=1)
            for number in range(said.shape[1]):
                met[first + number] += ((found == number) & (truth == number)).sum()
                either[first + number] += ((found == number) | (truth == number)).sum()
    network.train()
    shares = (met / either.clamp(min=1)).tolist()
    return {name: round(share, 4) for name, share in zip(names, shares, strict=True)}
