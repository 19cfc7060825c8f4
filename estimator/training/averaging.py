"""``python -m estimator.training.averaging``: one network between two of the same beginning.

After Wortsman et al. (2022), *Model soups*: the average of the weights of two trainings that part
from a common state often reads unfamiliar pictures better than either.
"""

import argparse
from pathlib import Path

import torch
from torch import Tensor

from estimator.training.export import export
from estimator.training.network import PlanNetwork

Weights = dict[str, Tensor]


def averaged(earlier: Weights, later: Weights, share: float) -> Weights:
    """Return weights between two networks, so large a share of the later one's."""
    return {
        name: (1 - share) * weight + share * later[name]
        if weight.is_floating_point()
        else later[name]
        for name, weight in earlier.items()
    }


def main() -> None:
    """Average two networks by the shares given on the command line, and write the ONNX."""
    parser = argparse.ArgumentParser(
        prog="python -m estimator.training.averaging", description=__doc__
    )
    parser.add_argument("earlier", type=Path, help="network.pt of the one training")
    parser.add_argument("later", type=Path, help="network.pt of the other")
    parser.add_argument("share", type=float, help="of the later one, 0 to 1")
    parser.add_argument("out", type=Path, help="where reader.onnx is written")
    chosen = parser.parse_args()
    earlier, later = (
        torch.load(path, map_location="cpu", weights_only=True)
        for path in (chosen.earlier, chosen.later)
    )
    network = PlanNetwork()
    network.load_state_dict(averaged(earlier, later, chosen.share))
    export(network, chosen.out)


if __name__ == "__main__":
    main()
