"""Write the trained network as ONNX, its weights in half precision."""

from pathlib import Path

import numpy as np
import onnx
import torch
from onnx import TensorProto, helper, numpy_helper
from torch import Tensor, nn

from estimator.reading.sight.classes import STRIDE
from estimator.training.network import PlanNetwork


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
        return torch.cat([scores.softmax(dim=1), deep.sigmoid()], dim=1), contents.softmax(dim=1)


def export(network: PlanNetwork, path: Path) -> None:
    """Write the network, for pictures of any size that is a multiple of ``STRIDE``."""
    answering = Answering(network).cpu().float().eval()
    sizes = {0: "n", 2: "h", 3: "w"}
    torch.onnx.export(
        answering,
        (torch.zeros(1, 3, 8 * STRIDE, 8 * STRIDE),),
        str(path),
        input_names=["pictures"],
        output_names=["answer", "contents"],
        dynamic_axes={
            "pictures": sizes,
            "answer": sizes,
            "contents": {0: "n", 2: "half_h", 3: "half_w"},
        },
        opset_version=17,
        dynamo=False,
    )
    halve(path)


def halve(path: Path) -> None:
    """Store the weights of an ONNX file in half precision; they are widened when it is loaded."""
    model = onnx.load(str(path))
    graph = model.graph
    widened = []
    for weight in graph.initializer:
        if weight.data_type == TensorProto.FLOAT and np.prod(weight.dims) > 1:
            small = numpy_helper.to_array(weight).astype(np.float16)
            name = weight.name
            weight.CopyFrom(numpy_helper.from_array(small, f"{name}_half"))
            cast = helper.make_node("Cast", [f"{name}_half"], [name], to=TensorProto.FLOAT)
            widened.append(cast)
    nodes = [*widened, *graph.node]
    del graph.node[:]
    graph.node.extend(nodes)
    onnx.save(model, str(path))
