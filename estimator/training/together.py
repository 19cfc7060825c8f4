"""One training by several processes, each with a GPU; the first writes what comes of it."""

import json
import os
from pathlib import Path

import torch
from torch import distributed

from estimator.training.export import export
from estimator.training.learning import Course, check, train

_MEETING = {"MASTER_ADDR": "127.0.0.1", "MASTER_PORT": "29511"}


def together(rank: int, count: int, course: Course, out: Path) -> None:
    """Train as one of several processes; the first of them finishes alone."""
    os.environ.update(_MEETING)
    device = torch.device("cuda", rank)
    torch.cuda.set_device(device)
    distributed.init_process_group("nccl", rank=rank, world_size=count)
    if rank:
        train(course, out, device)
    else:
        finish(course, out, device)
    distributed.destroy_process_group()


def finish(course: Course, out: Path, device: torch.device) -> None:
    """Train, write the network, and check it on drawings in held-out styles."""
    network = train(course, out, device)
    torch.save(network.state_dict(), out / "network.pt")
    overlaps = check(network, device, course.workers)
    (out / "check.json").write_text(json.dumps(overlaps) + "\n")
    export(network, out / "reader.onnx")
