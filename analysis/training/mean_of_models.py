"""The mean of two model files of one network, weight by weight: python3 mean_of_models.py OLD NEW SHARE OUT

SHARE, 0 to 1, is the weight of NEW. Of use where NEW was trained on from OLD, so that both lie in one
valley (Wortsman et al. 2022, Robust fine-tuning of zero-shot models).
"""

import sys

import numpy as np
import onnx
from onnx import numpy_helper


def mean_of(old, new, share):
    weights = {t.name: numpy_helper.to_array(t) for t in new.graph.initializer}
    if [n.name for n in old.graph.node] != [n.name for n in new.graph.node]:
        raise SystemExit("the two files do not hold the same network")
    for tensor in old.graph.initializer:
        if tensor.name.endswith((".w", ".b")):
            mixed = (1 - share) * numpy_helper.to_array(tensor) + share * weights[tensor.name]
            tensor.CopyFrom(numpy_helper.from_array(mixed.astype(np.float32), tensor.name))
    return old


def main(arguments):
    if len(arguments) != 4:
        raise SystemExit(__doc__)
    old, new, share, out = arguments
    onnx.save(mean_of(onnx.load(old), onnx.load(new), float(share)), out)


if __name__ == "__main__":
    main(sys.argv[1:])
