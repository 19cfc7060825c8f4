"""What the network is taught: the loss, and the course of one training."""

import json
import math
import time
from pathlib import Path

import torch
from attrs import asdict, frozen
from torch import Tensor, nn
from torch.nn import functional
from torch.utils.data import DataLoader

from estimator.reading.sight.classes import CLASSES
from estimator.training.network import PlanNetwork
from estimator.training.supply import DrawnPlans

# Doors and windows are thin and few, and a missed door merges two rooms.
CLASS_WEIGHTS = (1.0, 1.5, 3.0, 2.0, 1.0)

# Numbers of the drawings that measure the progress; no training reaches them.
CHECK_FIRST = 2_000_000_000
CHECK_COUNT = 256


@frozen(kw_only=True)
class Course:
    """The settings of one training."""

    seed: int = 1
    steps: int = 8000
    batch: int = 48
    peak_rate: float = 2e-3
    weight_decay: float = 1e-2
    warm_up: float = 0.05
    workers: int = 16


class Teacher(nn.Module):
    """The loss: weighted cross-entropy, overlap of the thin classes, and depth."""

    def __init__(self) -> None:
        super().__init__()
        self.register_buffer("weights", torch.tensor(CLASS_WEIGHTS))

    def forward(self, scores: Tensor, deep: Tensor, labels: Tensor, depth: Tensor) -> Tensor:
        """Return the loss of a batch, a scalar."""
        truth = labels.long()
        entropy = functional.cross_entropy(scores, truth, weight=self.weights)  # type: ignore[arg-type]
        shares = scores.softmax(dim=1)
        overlap = torch.zeros((), device=scores.device)
        for number in range(1, len(CLASSES) - 1):
            there = (labels == number).float()
            met = (shares[:, number] * there).sum()
            overlap = overlap + 1 - (2 * met + 1) / (shares[:, number].sum() + there.sum() + 1)
        reach = functional.smooth_l1_loss(deep.squeeze(1).sigmoid(), depth.float(), beta=0.1)
        return entropy + 0.3 * overlap + 2.0 * reach


def rate(step: int, course: Course) -> float:
    """Return the learning rate: a linear rise, then a cosine fall to nought."""
    rise = max(1, int(course.warm_up * course.steps))
    if step < rise:
        return course.peak_rate * (step + 1) / rise
    passed = (step - rise) / max(1, course.steps - rise)
    return course.peak_rate * 0.5 * (1 + math.cos(math.pi * passed))


def train(course: Course, folder: Path, device: torch.device) -> PlanNetwork:
    """Train a network by the course and return it, logging to ``folder/log.jsonl``."""
    torch.manual_seed(course.seed)
    torch.backends.cudnn.benchmark = True
    network = PlanNetwork().to(device, memory_format=torch.channels_last)
    teacher = Teacher().to(device)
    teach = torch.optim.AdamW(
        network.parameters(), lr=course.peak_rate, weight_decay=course.weight_decay
    )
    plans = DrawnPlans(course.seed * 10_000_000, course.steps * course.batch)
    supply = DataLoader(
        plans,
        batch_size=course.batch,
        num_workers=course.workers,
        pin_memory=device.type == "cuda",
        prefetch_factor=4 if course.workers else None,
    )
    began, running = time.monotonic(), 0.0
    with (folder / "log.jsonl").open("w") as log:
        log.write(json.dumps(asdict(course)) + "\n")
        for step, batch in enumerate(supply):
            pictures, labels, depth = (part.to(device, non_blocking=True) for part in batch)
            for group in teach.param_groups:
                group["lr"] = rate(step, course)
            with torch.autocast(device.type, dtype=torch.bfloat16, enabled=device.type == "cuda"):
                scores, deep = network(as_input(pictures))
            loss = teacher(scores.float(), deep.float(), labels, depth)
            teach.zero_grad(set_to_none=True)
            loss.backward()
            nn.utils.clip_grad_norm_(network.parameters(), 1.0)
            teach.step()
            running = loss.item() if step == 0 else 0.98 * running + 0.02 * loss.item()
            if step % 50 == 0 or step == course.steps - 1:
                seen = (step + 1) * course.batch
                entry = {
                    "step": step,
                    "loss": round(running, 4),
                    "pictures": seen,
                    "pictures_per_second": round(seen / (time.monotonic() - began), 1),
                }
                log.write(json.dumps(entry) + "\n")
                log.flush()
                print(entry, flush=True)
    return network


def as_input(pictures: Tensor) -> Tensor:
    """Return pictures 0..255 as the network takes them: float 0..1, channels last."""
    return pictures.float().div_(255.0).contiguous(memory_format=torch.channels_last)


@torch.no_grad()  # type: ignore[untyped-decorator]
def check(network: PlanNetwork, device: torch.device, workers: int) -> dict[str, float]:
    """Return intersection over union of each class on drawings in held-out styles."""
    network.eval()
    met = torch.zeros(len(CLASSES), device=device)
    either = torch.zeros(len(CLASSES), device=device)
    plans = DrawnPlans(CHECK_FIRST, CHECK_COUNT, held_out=True)
    for pictures, labels, _ in DataLoader(plans, batch_size=16, num_workers=workers):
        scores, _ = network(as_input(pictures.to(device)))
        found, truth = scores.argmax(dim=1), labels.to(device)
        for number in range(len(CLASSES)):
            said, there = found == number, truth == number
            met[number] += (said & there).sum()
            either[number] += (said | there).sum()
    network.train()
    shares = (met / either.clamp(min=1)).tolist()
    return {name: round(share, 4) for name, share in zip(CLASSES, shares, strict=True)}
