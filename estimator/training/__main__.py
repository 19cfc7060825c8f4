"""``python -m estimator.training OUT``: train the reading network and write it as ONNX."""

import argparse
import json
from pathlib import Path

import torch

from estimator.training.export import export
from estimator.training.learning import Course, check, train


def main() -> None:
    """Train by the course given on the command line."""
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
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    course = Course(
        seed=chosen.seed,
        steps=chosen.steps,
        batch=chosen.batch,
        looks=chosen.looks,
        workers=chosen.workers,
    )
    network = train(course, chosen.out, device)
    torch.save(network.state_dict(), chosen.out / "network.pt")
    export(network, chosen.out / "reader.onnx")
    overlaps = check(network.to(device), device, chosen.workers)
    (chosen.out / "check.json").write_text(json.dumps(overlaps) + "\n")


if __name__ == "__main__":
    main()
