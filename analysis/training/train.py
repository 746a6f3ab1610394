"""From nothing to the model file: renders views, trains on them as they come, writes the model.

    python3 train.py --out DIR [--views 9000] [--seconds 500] [--resume FILE]

Needs an NVIDIA card, nvcc, PyTorch, OpenCV, SciPy, scikit-image and onnx; nothing of it is needed to
use Loafmark. Seeds are fixed; which views a step sees depends on how fast they come, so two runs agree
in their figures, not in every bit. Prints figures on views whose seeds training never sees.
"""

import argparse
import os
import pathlib
import subprocess
import time

import cv2
import numpy as np
import torch
from torch.nn import functional as F

import network
import resume
import views

HERE = pathlib.Path(__file__).resolve().parent
CROP = 352
BATCH = 40


def built_renderer(out):
    """The renderer's library: a ready one beside this file, else compiled."""
    ready = HERE / "libviews.so"
    if ready.exists():
        return ready
    target = pathlib.Path(out) / "libviews.so"
    phantoms = HERE.parent / "phantoms"
    sources = [phantoms / "src" / f"{name}.cpp" for name in
               ("packing", "brick", "volume", "fit_bubbles", "outline", "section", "develop")]
    subprocess.run(
        ["nvcc", "-O3", "-std=c++20", "-arch=native", "--shared", "-Xcompiler",
         "-fPIC,-O3,-fno-math-errno", "-I", HERE, "-I", phantoms / "include", "-I",
         phantoms / "src", "-I", HERE.parent / "include", "-o", target,
         HERE / "view_renderer.cu", HERE / "view_recipe.cpp", *sources], check=True)
    return target


class Pool:
    """Views on the card, taken over from the workers' store as they are done."""

    def __init__(self, store, device):
        self.store, self.device, self.count = store, device, 0
        self.taken = np.zeros(store.count, bool)
        self.faces = torch.empty((store.count, views.SIDE, views.SIDE, 3), dtype=torch.uint8,
                                 device=device)
        self.flags = torch.empty(store.faces.shape[:3], dtype=torch.uint8, device=device)

    def refresh(self):
        for i in np.flatnonzero((self.store.done == 1) & ~self.taken):
            self.faces[self.count] = torch.from_numpy(np.array(self.store.faces[i])).to(self.device)
            self.flags[self.count] = torch.from_numpy(np.array(self.store.flags[i])).to(self.device)
            self.taken[i] = True
            self.count += 1


def targets_of(flags):
    """Open, core, face, the face less cells too small to be counted, and specks; 0 or 1, N x 1 x H x W
    each."""
    pick = lambda bit: ((flags & bit) > 0).float()[:, None]
    face = pick(views.FACE)
    return pick(views.OPEN), pick(views.CORE), face, face * (1 - pick(views.MINOR)), pick(views.SPECK)


def normalised(x, face):
    """As LearnedSegmenter does it: each channel less its mean over the face, all over the face's
    scatter of brightness; 0 outside the face."""
    pixels = face.sum((2, 3), keepdim=True).clamp(min=1)
    mean = (x * face).sum((2, 3), keepdim=True) / pixels
    x = (x - mean) * face
    scatter = ((x.mean(1, keepdim=True) ** 2).sum((2, 3), keepdim=True) / pixels).sqrt()
    return x / (scatter + 0.05)


def uniform(n, low, high, device):
    return low + (high - low) * torch.rand(n, 1, 1, 1, device=device)


def other_light(x):
    """Tone, colour, an uneven light, blur and noise that no renderer seed gave."""
    n, device = len(x), x.device
    x = x.clamp(1e-4, 1) ** torch.exp(uniform(n, -0.35, 0.35, device))
    grey = x.mean(1, keepdim=True)
    x = grey + (x - grey) * uniform(n, 0.3, 1.3, device)
    x = x * (1 + 0.08 * torch.randn(n, 3, 1, 1, device=device))
    rows = torch.linspace(-0.5, 0.5, x.shape[2], device=device).view(1, 1, -1, 1)
    columns = torch.linspace(-0.5, 0.5, x.shape[3], device=device).view(1, 1, 1, -1)
    x = x * (1 + uniform(n, -0.5, 0.5, device) * rows + uniform(n, -0.5, 0.5, device) * columns)
    if torch.rand(()) < 0.2:
        share = uniform(n, 0, 1, device)
        x = x + share * (F.avg_pool2d(F.pad(x, (1,) * 4, mode="replicate"), 3, 1) - x)
    return (x + uniform(n, 0, 0.025, device) * torch.randn_like(x)).clamp(0, 1)


def turned(turn, mirror, *pictures):
    out = [torch.rot90(p, turn, (2, 3)) for p in pictures]
    return [p.flip(3) for p in out] if mirror else out


def training_batch(pool):
    device = pool.device
    index = torch.randint(pool.count, (BATCH,), device=device)
    x = other_light(pool.faces[index].permute(0, 3, 1, 2).float() / 255)
    is_open, core, face, judged, speck = targets_of(pool.flags[index])
    x = normalised(x, face)
    # A whole slice is lighter or darker than this piece of it, and more or less contrasted.
    x = (x * torch.exp(uniform(BATCH, -0.45, 0.45, device))
         + 0.4 * torch.randn(BATCH, 1, 1, 1, device=device)) * face
    top, left = np.random.randint(0, views.SIDE - CROP + 1, 2)
    cut = lambda p: p[:, :, top:top + CROP, left:left + CROP]
    return turned(np.random.randint(4), np.random.rand() < 0.5,
                  *[cut(p) for p in (x, is_open, core, face, judged, speck)])


def loss_of(logits, is_open, core, face, judged, speck):
    """Cross-entropy for openness, so that it comes out calibrated, but cells too small to be counted weigh
    a quarter, and specks three times: they are few, and each that passes for a cell is one too many. For
    cores the thin walls count more, since they decide what is one cell."""
    counts = 0.25 * face + 0.75 * judged + 2 * speck
    raw = F.binary_cross_entropy_with_logits(logits, torch.cat([is_open, core], 1), reduction="none")
    closed = 1 - F.max_pool2d(1 - F.max_pool2d(is_open, 7, 1, 3), 7, 1, 3)
    weight = face * (1 + 4 * closed * (1 - is_open))
    opening = (raw[:, :1] * counts).sum() / counts.sum()
    parting = (raw[:, 1:] * weight).sum() / weight.sum()
    return opening + 0.7 * parting


@torch.no_grad()
def validation_logits(net, pool):
    net.eval()
    out = []
    for i in range(0, pool.count, 16):
        x = pool.faces[i:i + 16].permute(0, 3, 1, 2).float() / 255
        face = targets_of(pool.flags[i:i + 16])[2]
        out.append(net(normalised(x, face).contiguous(memory_format=torch.channels_last)).float())
    net.train()
    return torch.cat(out)


def best_temperature(logits, is_open, face):
    """Divides logits so that the cross-entropy on the validation views is least (Guo et al. 2017)."""
    candidates = torch.linspace(0.7, 1.6, 46)
    losses = [(F.binary_cross_entropy_with_logits(logits / t, is_open, reduction="none") * face).sum()
              for t in candidates.tolist()]
    return candidates[int(torch.stack(losses).argmin())].item()


def report(net, pool, temperature=1.0):
    logits = validation_logits(net, pool)
    is_open, core, _, face, speck = targets_of(pool.flags[:pool.count])
    probability = torch.sigmoid(logits[:, :1] / temperature)
    found, area = ((probability > 0.5).float() * face), face.sum((1, 2, 3)).clamp(min=1)
    error = ((found - is_open * face).sum((1, 2, 3)) / area)
    expected = ((probability - is_open) * face).sum((1, 2, 3)) / area
    both = (found * is_open).sum((1, 2, 3)) / (found + is_open * face).clamp(max=1).sum((1, 2, 3))
    specks = (found * speck).sum() / speck.sum().clamp(min=1)
    cores = ((logits[:, 1:] > 0).float() * face)
    core_both = (cores * core).sum() / (cores + core * face).clamp(max=1).sum()
    print(f"  openness: bias {error.mean():+.4f}, |error| median {error.abs().median():.4f}, worst "
          f"{error.abs().max():.4f}; expected area |error| median {expected.abs().median():.4f}; "
          f"IoU mean {both.nanmean():.3f}, cores {core_both:.3f}, of specks called open "
          f"{specks:.3f}", flush=True)
    return logits, is_open, face, probability


def print_calibration(probability, is_open, face):
    inside = face > 0
    p, y = probability[inside], is_open[inside]
    for low in np.arange(0, 1, 0.1):
        chosen = (p >= low) & (p < low + 0.1)
        if chosen.any():
            print(f"  called {low:.1f} to {low + 0.1:.1f}: {y[chosen].mean():.3f} are open "
                  f"({100 * chosen.float().mean():.1f} % of pixels)", flush=True)


def contact_sheet(path, pool, first, rows, columns, probability=None):
    """Pairs: the view above, its truth (or red: found, green: true) below."""
    lines = []
    for r in range(rows):
        pictures = []
        for i in range(first + r * columns, first + (r + 1) * columns):
            flags = pool.flags[i].cpu().numpy()
            truth = np.stack([255 * ((flags & views.OPEN) > 0), 255 * ((flags & views.CORE) > 0),
                              60 * ((flags & views.FACE) == 0)], 2).astype(np.uint8)
            if probability is not None:
                truth[..., 1] = truth[..., 0]
                truth[..., 0] = (255 * probability[i, 0].cpu().numpy()).astype(np.uint8)
            pictures.append(np.vstack([pool.faces[i].cpu().numpy(), truth]))
        lines.append(np.hstack(pictures))
    cv2.imwrite(str(path), np.vstack(lines)[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, 88])


def learning_rate(share, step, top):
    return top * min(1, step / 200) * (0.5 * (1 + np.cos(np.pi * min(1, share))) + 0.002)


def save(average, path, temperature):
    torch.save({k: v.cpu() for k, v in average.state_dict().items()}, path / "network.pt")
    network.export(average, str(path / "crumb-cells.onnx"), 1 / temperature)


def finish(average, validation, out):
    logits, is_open, face, _ = report(average, validation)
    temperature = best_temperature(logits[:, :1], is_open, face)
    print(f"calibration temperature {temperature:.2f}")
    probability = report(average, validation, temperature)[3]
    print_calibration(probability, is_open, face)
    save(average, out, temperature)
    if validation.count >= 24:
        contact_sheet(out / "validation.jpg", validation, 0, 3, 8, probability)


def wait_for(pool, count, until):
    while pool.count < count and time.time() < until:
        time.sleep(0.5)
        pool.refresh()


def starting_network(resumed, pool):
    """A new one, or the one kept in a file of PyTorch's or in a model file."""
    net = network.CellNetwork().to(pool.device, memory_format=torch.channels_last)
    if not resumed:
        return net
    if not resumed.endswith(".onnx"):
        net.load_state_dict(torch.load(resumed, map_location=pool.device))
        return net
    net.load_state_dict(resume.from_onnx(resumed).state_dict())
    resume.spread_norms(net, (training_batch(pool)[0] for _ in range(16)))
    return net


def train(options, device):
    began = time.time()
    out = pathlib.Path(options.out)
    out.mkdir(parents=True, exist_ok=True)
    renderer = built_renderer(out)
    until = began + options.seconds
    validation = Pool(views.ViewStore(options.store + "/validation", options.validation), device)
    pool = Pool(views.ViewStore(options.store + "/training", options.views), device)
    first = views.start_workers(renderer, options.store + "/validation", options.validation,
                                views.VALIDATION_SEED, options.workers, until, options.render_cards)
    wait_for(validation, options.validation, began + 90)
    for process in first:
        process.join(timeout=5)
    if validation.count == 0:
        raise SystemExit("no view could be rendered; what the renderer said stands above")
    print(f"{validation.count} validation views after {time.time() - began:.0f} s", flush=True)
    views.start_workers(renderer, options.store + "/training", options.views, options.first_seed,
                        options.workers, began + options.generate, options.render_cards)
    if validation.count >= 48:
        contact_sheet(out / "views-1.jpg", validation, 0, 3, 8)
        contact_sheet(out / "views-2.jpg", validation, 24, 3, 8)
    wait_for(pool, min(options.views, options.start_with), until)
    print(f"{pool.count} training views after {time.time() - began:.0f} s", flush=True)

    net = starting_network(options.resume, pool).to(device, memory_format=torch.channels_last)
    if options.resume:
        print("as it stood before:", flush=True)
        report(net, validation)
    average = torch.optim.swa_utils.AveragedModel(
        net, avg_fn=lambda mean, new, _: mean + (new - mean) * options.averaging,
        use_buffers=True)
    print(f"{network.parameter_count(net)} parameters", flush=True)
    optimiser = torch.optim.AdamW(net.parameters(), options.rate, weight_decay=1e-4)
    started, step, told, running = time.time(), 0, time.time(), 0.0
    while time.time() < until:
        share = (time.time() - started) / (until - started)
        for group in optimiser.param_groups:
            group["lr"] = learning_rate(share, step, options.rate)
        x, *truth = training_batch(pool)
        with torch.autocast(device.split(":")[0], torch.bfloat16, enabled=device != "cpu"):
            logits = net(x.contiguous(memory_format=torch.channels_last))
        loss = loss_of(logits.float(), *truth)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(net.parameters(), 1.0)
        optimiser.step()
        step += 1
        if step % 4 == 0:
            average.update_parameters(net)
        if step % 25 == 0:
            running = loss.item() if running == 0 else 0.9 * running + 0.1 * loss.item()
            pool.refresh()
        if time.time() - told > options.tell:
            told = time.time()
            print(f"{told - began:.0f} s, step {step}, {pool.count} views, loss {running:.4f}",
                  flush=True)
            report(average.module, validation)
            save(average.module, out, 1.0)
    finish(average.module, validation, out)
    print(f"done after {time.time() - began:.0f} s, {step} steps, {pool.count} views", flush=True)


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--out", required=True)
    parser.add_argument("--views", type=int, default=12000)
    parser.add_argument("--seconds", type=float, default=540, help="all in all")
    parser.add_argument("--generate", type=float, default=400, help="no new views after this")
    parser.add_argument("--start-with", type=int, default=1500, help="views before training begins")
    parser.add_argument("--first-seed", type=int, default=1)
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--averaging", type=float, default=0.006)
    parser.add_argument("--tell", type=float, default=45, help="seconds between figures")
    parser.add_argument("--store", default="/tmp/loafmark-views")
    parser.add_argument("--workers", type=int, default=max(1, (os.cpu_count() or 2) - 1))
    parser.add_argument("--validation", type=int, default=240, help="views kept for figures")
    parser.add_argument("--render-cards", type=int, nargs="+", default=[],
                        help="render on these cards, train on the first")
    parser.add_argument("--resume", help="train on from here: a network.pt or a crumb-cells.onnx")
    torch.backends.cudnn.benchmark = True
    torch.manual_seed(5)
    np.random.seed(5)
    train(parser.parse_args(), "cuda" if torch.cuda.is_available() else "cpu")


if __name__ == "__main__":
    main()
