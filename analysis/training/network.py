"""Both networks: small U-Nets that work at half resolution and below.

Input: a picture as `normalised` makes it, N x 3 x H x W, H and W multiples of 2 to the number of levels.
Output: N x outputs x H x W logits. Of the cell network: that a pixel is open, and that it belongs to the
core of a cell. Of the face network: that a pixel lies in a slice's cut face. The first layer folds 4 x 4
pixels with stride 2, the last unfolds 2 x 2, so that no layer but these sees full resolution.
"""

import numpy as np
import torch
from torch import nn
from torch.nn import functional as F

CHANNELS = (16, 32, 56, 96, 128)  # at 1/2, 1/4, 1/8, 1/16, 1/32 of the resolution
FACE_CHANNELS = (12, 20, 36, 52, 76, 96)  # and 1/64: a loaf must be seen whole
LEAST_SIDE = 32


class Convolution(nn.Module):
    """3 x 3, batch normalisation, rectifier."""

    def __init__(self, inputs, outputs):
        super().__init__()
        self.convolution = nn.Conv2d(inputs, outputs, 3, padding=1, bias=False)
        self.norm = nn.BatchNorm2d(outputs)

    def forward(self, x):
        return F.relu(self.norm(self.convolution(x)))


class CellNetwork(nn.Module):
    def __init__(self, channels=CHANNELS, outputs=2):
        super().__init__()
        self.stem = nn.Conv2d(3, channels[0], 4, stride=2, padding=1)
        self.down = nn.ModuleList(
            [nn.Sequential(Convolution(channels[0], channels[0]))]
            + [
                nn.Sequential(Convolution(a, b), Convolution(b, b))
                for a, b in zip(channels[:-1], channels[1:])
            ]
        )
        self.up = nn.ModuleList(
            [
                nn.Sequential(Convolution(a + b, b), Convolution(b, b))
                for a, b in zip(channels[:0:-1], channels[-2::-1])
            ]
        )
        self.unfold = nn.ConvTranspose2d(channels[0], outputs, 2, stride=2)

    def forward(self, x):
        x = F.relu(self.stem(x))
        passed = []
        for i, block in enumerate(self.down):
            x = block(x if i == 0 else F.max_pool2d(x, 2))
            passed.append(x)
        for block, beside in zip(self.up, passed[-2::-1]):
            x = block(torch.cat([F.interpolate(x, scale_factor=2.0, mode="nearest"), beside], 1))
        return self.unfold(x)


def parameter_count(net):
    return sum(p.numel() for p in net.parameters())


def export(net, path, logit_scale=1.0, name="crumb-cells"):
    """Writes the network as ONNX, opset 11, batch normalisation folded into the convolutions by hand
    and the first output divided by its calibration temperature."""
    outputs = net.unfold.out_channels
    plain = CellNetwork(tuple(b[-1].convolution.out_channels for b in net.down), outputs).eval()
    state = {k: v.detach().float().cpu().clone() for k, v in net.state_dict().items()}
    for layer in [k[: -len(".norm.weight")] for k in state if k.endswith(".norm.weight")]:
        scale = state[layer + ".norm.weight"] / torch.sqrt(state[layer + ".norm.running_var"] + 1e-5)
        state[layer + ".bias"] = state[layer + ".norm.bias"] - state[layer + ".norm.running_mean"] * scale
        state[layer + ".weight"] = state[layer + ".convolution.weight"] * scale.view(-1, 1, 1, 1)
        for part in ("norm.weight", "norm.bias", "norm.running_mean", "norm.running_var",
                     "norm.num_batches_tracked", "convolution.weight"):
            state.pop(f"{layer}.{part}", None)
    state["unfold.weight"][:, 0] *= logit_scale
    state["unfold.bias"][0] *= logit_scale
    write_onnx(plain, {k: v.numpy() for k, v in state.items()}, path, name)


def write_onnx(net, weights, path, graph_name):
    """The graph, node by node: what OpenCV reads does not depend on an exporter's version."""
    import onnx
    from onnx import TensorProto, helper, numpy_helper

    nodes, constants = [], []

    def constant(name, array):
        constants.append(numpy_helper.from_array(np.ascontiguousarray(array), name))
        return name

    def node(kind, inputs, name, **attributes):
        nodes.append(helper.make_node(kind, inputs, [name], name=name, **attributes))
        return name

    def convolution(x, name, kernel=3, stride=1, pad=1):
        y = node("Conv", [x, constant(name + ".w", weights[name + ".weight"]),
                          constant(name + ".b", weights[name + ".bias"])], name,
                 kernel_shape=[kernel] * 2, strides=[stride] * 2, pads=[pad] * 4,
                 dilations=[1, 1], group=1)
        return node("Relu", [y], name + ".relu")

    def block(x, name, parts):
        for i in range(len(parts)):
            x = convolution(x, f"{name}.{i}")
        return x

    x = convolution("face", "stem", kernel=4, stride=2)
    passed = []
    for i, parts in enumerate(net.down):
        if i > 0:
            x = node("MaxPool", [x], f"pool.{i}", kernel_shape=[2, 2], strides=[2, 2])
        x = block(x, f"down.{i}", parts)
        passed.append(x)
    for i, (parts, beside) in enumerate(zip(net.up, passed[-2::-1])):
        scales = constant(f"scales.{i}", np.array([1, 1, 2, 2], np.float32))
        roi = constant(f"roi.{i}", np.zeros(0, np.float32))
        x = node("Resize", [x, roi, scales], f"grow.{i}", mode="nearest",
                 coordinate_transformation_mode="asymmetric", nearest_mode="floor")
        x = node("Concat", [x, beside], f"join.{i}", axis=1)
        x = block(x, f"up.{i}", parts)
    node("ConvTranspose", [x, constant("unfold.w", weights["unfold.weight"]),
                           constant("unfold.b", weights["unfold.bias"])], "logits",
         kernel_shape=[2, 2], strides=[2, 2], pads=[0, 0, 0, 0], dilations=[1, 1], group=1)
    side = ["height", "width"]
    graph = helper.make_graph(
        nodes, graph_name,
        [helper.make_tensor_value_info("face", TensorProto.FLOAT, [1, 3] + side)],
        [helper.make_tensor_value_info("logits", TensorProto.FLOAT, [1, net.unfold.out_channels] + side)], constants)
    model = helper.make_model(graph, opset_imports=[helper.make_opsetid("", 11)],
                              producer_name="loafmark")
    model.ir_version = 6
    onnx.checker.check_model(model)
    onnx.save(model, path)
