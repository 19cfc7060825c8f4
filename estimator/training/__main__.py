"""``python -m estimator.training OUT``: train the reading network and write it as ONNX."""

import argparse
from pathlib import Path

import torch
from torch import multiprocessing

from estimator.training.learning import Course
from estimator.training.together import finish, together


def main() -> None:
    """Train by the course given on the command line, on every GPU there is."""
    usual = Course()
    parser = argparse.ArgumentParser(prog="python -m estimator.training", description=__doc__)
    parser.add_argument(
        "out",
        type=Path,
        help="folder for the state, the log and reader.onnx; a state there is gone on from",
    )
    parser.add_argument("--seed", type=int, default=usual.seed)
    parser.add_argument("--steps", type=int, default=usual.steps)
    parser.add_argument("--batch", type=int, default=usual.batch)
    parser.add_argument("--looks", type=int, default=usual.looks)
    parser.add_argument("--workers", type=int, default=usual.workers)
    chosen = parser.parse_args()
    chosen.out.mkdir(parents=True, exist_ok=True)
    course = Course(
        seed=chosen.seed,
        steps=chosen.steps,
        batch=chosen.batch,
        looks=chosen.looks,
        workers=chosen.workers,
    )
    count = torch.cuda.device_count()
    if count > 1:
        multiprocessing.spawn(together, (count, course, chosen.out), nprocs=count)
    else:
        finish(course, chosen.out, torch.device("cuda" if count else "cpu"))


if __name__ == "__main__":
    main()
