"""Write the trained network as ONNX, reckoning in whole numbers of eight bits."""

from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import onnx
import torch
from numpy.typing import NDArray
from onnxruntime.quantization import (
    CalibrationDataReader,
    QuantFormat,
    QuantType,
    quantize_static,
)
from onnxruntime.quantization.shape_inference import quant_pre_process
from torch import Tensor, nn

from estimator.reading.sight.classes import STRIDE
from estimator.training.network import PlanNetwork
from estimator.training.supply import DrawnPlans

# Drawings by which the range of every layer's answers is found; no training reaches them.
RANGES_FIRST = 1_900_000_000
RANGES_COUNT = 24


class Answering(nn.Module):
    """The network as the reader calls it.

    The answer holds the shares of each class, then depth, (N, 6, H, W); contents hold the shares
    of each, (N, C, H/2, W/2).
    """

    def __init__(self, network: PlanNetwork) -> None:
        super().__init__()
        self.network = network

    def forward(self, pictures: Tensor) -> tuple[Tensor, Tensor]:
        """Return answer and contents for pictures (N, 3, H, W) of 0..1."""
        scores, deep, contents = self.network(pictures)
        return torch.cat([_shares(scores), deep.sigmoid()], dim=1), _shares(contents)


def _shares(scores: Tensor) -> Tensor:
    """Return scores (N, C, H, W) as shares: softmax in steps that onnxruntime takes quickly."""
    grown = scores.clamp(-60, 60).exp()
    return grown / grown.sum(dim=1, keepdim=True)


class Drawings(CalibrationDataReader):  # type: ignore[misc]
    """Pictures that the ranges are found from, one by one."""

    def __init__(self) -> None:
        plans = DrawnPlans(RANGES_FIRST, RANGES_COUNT)
        self._pictures = (plans[number][0].numpy() for number in range(RANGES_COUNT))

    def get_next(self) -> dict[str, NDArray[np.float32]] | None:
        """Return the next picture as the network takes it, None after the last."""
        picture = next(self._pictures, None)
        return None if picture is None else {"pictures": picture[None].astype(np.float32) / 255}


def export(network: PlanNetwork, path: Path) -> None:
    """Write the network, for pictures of any size that is a multiple of ``STRIDE``."""
    with TemporaryDirectory() as folder:
        exact, shaped = Path(folder) / "exact.onnx", Path(folder) / "shaped.onnx"
        _write_exact(network, exact)
        quant_pre_process(str(exact), str(shaped), skip_symbolic_shape=True)
        convolutions = [
            node.name for node in onnx.load(str(shaped)).graph.node if node.op_type == "Conv"
        ]
        # The first layer sees the picture, the last makes the shares of classes: both stay exact.
        # Seven bits of eight, as processors without the newer instructions overflow at eight.
        quantize_static(
            str(shaped),
            str(path),
            Drawings(),
            quant_format=QuantFormat.QDQ,
            op_types_to_quantize=["Conv", "Add", "Concat", "Relu"],
            nodes_to_exclude=[convolutions[0], convolutions[-1]],
            activation_type=QuantType.QUInt8,
            weight_type=QuantType.QInt8,
            per_channel=True,
            reduce_range=True,
        )


def _write_exact(network: PlanNetwork, path: Path) -> None:
    answering = Answering(network).cpu().float().eval()
    torch.onnx.export(
        answering,
        (torch.zeros(1, 3, 8 * STRIDE, 8 * STRIDE),),
        str(path),
        input_names=["pictures"],
        output_names=["answer", "contents"],
        dynamic_axes={
            "pictures": {0: "n", 2: "h", 3: "w"},
            "answer": {0: "n", 2: "h", 3: "w"},
            "contents": {0: "n", 2: "half_h", 3: "half_w"},
        },
        opset_version=17,
        dynamo=False,
    )
