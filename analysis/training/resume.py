"""A network to train on from: its state as PyTorch keeps it, or the model file that was made of it.

The model file holds batch normalisation folded into the convolutions. `from_onnx` puts it back as an
identity, which answers the same but normalises by nothing; `spread_norms` then measures what each
normalisation sees and writes it so that training, which normalises by the batch, starts where the model
stood.
"""

import numpy as np
import torch

import network


def from_onnx(path):
    """A network in evaluation mode whose answer is the model file's. The temperature of the first output
    stays divided in."""
    import onnx
    from onnx import numpy_helper

    stored = {t.name: torch.from_numpy(np.array(numpy_helper.to_array(t), np.float32))
              for t in onnx.load(str(path)).graph.initializer}
    net = network.CellNetwork()
    state = net.state_dict()

    def put(name, array):
        if name not in state or state[name].shape != array.shape:
            raise SystemExit(f"{path} is not of this network's shape: {name} is {tuple(array.shape)}")
        state[name] = array

    for name in [n[:-len(".w")] for n in stored if n.endswith(".w")]:
        weight, bias = stored[name + ".w"], stored[name + ".b"]
        if name + ".weight" in state:
            put(name + ".weight", weight)
            put(name + ".bias", bias)
            continue
        put(name + ".convolution.weight", weight)
        put(name + ".norm.bias", bias)
        put(name + ".norm.weight", torch.ones_like(bias))
        put(name + ".norm.running_mean", torch.zeros_like(bias))
        put(name + ".norm.running_var", torch.full_like(bias, 1 - 1e-5))
    net.load_state_dict(state)
    return net.eval()


@torch.no_grad()
def spread_norms(net, batches):
    """Leaves the answer as it is, but each normalisation's mean and variance become those of `batches`,
    undone by its weight and bias. Of a network that is not `from_onnx` these are known already."""
    norms = [m for m in net.modules() if isinstance(m, torch.nn.BatchNorm2d)]
    sums = {norm: [] for norm in norms}
    hooks = [norm.register_forward_pre_hook(lambda norm, seen: sums[norm].append(
        torch.stack([seen[0].float().mean((0, 2, 3)), (seen[0].float() ** 2).mean((0, 2, 3))])))
        for norm in norms]
    net.eval()
    for batch in batches:
        net(batch)
    for hook in hooks:
        hook.remove()
    for norm in norms:
        mean, square = torch.stack(sums[norm]).mean(0)
        variance = (square - mean ** 2).clamp(min=1e-4)
        scale = norm.weight / torch.sqrt(norm.running_var + norm.eps)
        norm.bias += scale * (mean - norm.running_mean)
        norm.weight.copy_(scale * torch.sqrt(variance + norm.eps))
        norm.running_mean.copy_(mean)
        norm.running_var.copy_(variance)
    net.train()
