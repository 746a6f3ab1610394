"""From rendered scenes to the network that finds slices.

    python3 train_faces.py --scenes DIR --out DIR [--seconds 500] [--resume DIR/faces.pt]

`scene_views` (scene_views.cpp) writes the scenes; this trains on what lies in the folder and on what comes
while it runs, and writes `slice-faces.onnx`. Scenes whose seed ends in 7 or so (one in forty) are kept for
figures and never trained on. Needs PyTorch, OpenCV and onnx for Python, and a graphics card to be quick.
"""

import argparse
import concurrent.futures
import pathlib
import time

import cv2
import numpy as np
import torch
from torch.nn import functional as F

import network
import scenes

BATCH = 28
KEPT_EVERY = 40


def seed_of(path):
    return int(path.stem.split("-")[0])


class Pool:
    """Scenes of a folder, read as they appear, in the card's memory."""

    def __init__(self, folder, most, device):
        self.folder, self.device, self.known = pathlib.Path(folder), device, set()
        self.data = torch.empty((most, scenes.SIDE, scenes.SIDE, 6), dtype=torch.uint8, device=device)
        self.count, self.kept = 0, []
        self.readers = concurrent.futures.ThreadPoolExecutor(4)

    def refresh(self, most=400):
        new = [p for p in self.folder.glob("*.scene") if p not in self.known][:most]
        for path, scene in zip(new, self.readers.map(scenes.load_scene, new)):
            self.known.add(path)
            scene = torch.from_numpy(scene)
            if seed_of(path) % KEPT_EVERY == 0:
                self.kept.append(scene)
            elif self.count < len(self.data):
                self.data[self.count] = scene.to(self.device)
                self.count += 1
        return len(new)

    def batch(self):
        index = torch.randint(self.count, (BATCH,), device=self.device)
        return self.data[index]


def loss_of(logits, face, counts):
    """Cross-entropy, the pixels near an edge counting five times; and overlap, lest small faces be
    forgotten."""
    hard = (face > 0.5).float()
    rim = F.max_pool2d(hard, 9, 1, 4) + F.max_pool2d(1 - hard, 9, 1, 4) - 1
    weight = counts * (1 + 4 * rim)
    raw = F.binary_cross_entropy_with_logits(logits, face, reduction="none")
    p = torch.sigmoid(logits) * counts
    both = (p * face).sum((1, 2, 3))
    overlap = 1 - (2 * both + 1) / (p.sum((1, 2, 3)) + (face * counts).sum((1, 2, 3)) + 1)
    return (raw * weight).sum() / weight.sum() + 0.15 * overlap.mean()


@torch.no_grad()
def report(net, kept, device, sheet=None):
    net.eval()
    ious, lines = [], []
    for i in range(0, len(kept), 16):
        batch = torch.stack(kept[i:i + 16]).to(device)
        x, face, _, counts, frame = scenes.parts(batch)
        logits = net(scenes.normalised(x, frame).contiguous(memory_format=torch.channels_last)).float()
        found = ((logits > 0).float() * counts * frame)
        true = (face > 0.5).float() * counts * frame
        both = (found * true).sum((1, 2, 3))
        ious += (both / ((found + true) > 0).float().sum((1, 2, 3)).clamp(min=1)).tolist()
        if sheet is not None and len(lines) < 64:
            for k in range(len(batch)):
                photo = batch[k, ..., :3].cpu().numpy().copy()
                mask = found[k, 0].cpu().numpy().astype(np.uint8)
                edge = cv2.morphologyEx(mask, cv2.MORPH_GRADIENT, np.ones((3, 3), np.uint8))
                photo[edge > 0] = (255, 0, 0)
                lines.append(cv2.resize(photo, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA))
    net.train()
    ious = np.sort(ious)
    print(f"  kept {len(ious)}: IoU median {np.median(ious):.4f}, a tenth below "
          f"{np.quantile(ious, 0.1):.4f}, worst {ious[:3].round(3)}", flush=True)
    if sheet is not None and len(lines) >= 32:
        rows = [np.hstack(lines[r:r + 8]) for r in range(0, len(lines) // 8 * 8, 8)]
        cv2.imwrite(str(sheet), np.vstack(rows)[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, 85])


def train(options, device):
    began = time.time()
    out = pathlib.Path(options.out)
    out.mkdir(parents=True, exist_ok=True)
    pool = Pool(options.scenes, options.most, device)
    while pool.count < options.start_with and time.time() - began < options.seconds:
        if pool.refresh() == 0:
            time.sleep(2)
    print(f"{pool.count} photos after {time.time() - began:.0f} s", flush=True)
    net = network.CellNetwork(network.FACE_CHANNELS, 1).to(device, memory_format=torch.channels_last)
    if options.resume:
        net.load_state_dict(torch.load(options.resume, map_location=device))
    average = torch.optim.swa_utils.AveragedModel(
        net, avg_fn=lambda mean, new, _: mean + (new - mean) * 0.008, use_buffers=True)
    print(f"{network.parameter_count(net)} parameters", flush=True)
    optimiser = torch.optim.AdamW(net.parameters(), options.rate, weight_decay=1e-4)
    started, step, told, running = time.time(), 0, time.time(), 0.0
    until = began + options.seconds
    while time.time() < until:
        share = (time.time() - started) / (until - started)
        rate = options.rate * min(1, (step + 1) / 200) * (0.5 * (1 + np.cos(np.pi * min(1, share))) + 0.002)
        for group in optimiser.param_groups:
            group["lr"] = rate
        with torch.no_grad():
            x, face, counts = scenes.training_batch(pool.batch())
        with torch.autocast(device.split(":")[0], torch.bfloat16, enabled=device != "cpu"):
            logits = net(x.contiguous(memory_format=torch.channels_last))
        loss = loss_of(logits.float(), face, counts)
        if step == 0:
            show_batch(out / "batch.jpg", x, face, counts)
        optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(net.parameters(), 1.0)
        optimiser.step()
        step += 1
        if step % 4 == 0:
            average.update_parameters(net)
        if step % 20 == 0:
            running = loss.item() if running == 0 else 0.9 * running + 0.1 * loss.item()
            pool.refresh(60)
        if time.time() - told > options.tell:
            told = time.time()
            print(f"{told - began:.0f} s, step {step}, {pool.count} photos, loss {running:.4f}", flush=True)
            report(average.module, pool.kept, device)
            save(average.module, out)
    report(average.module, pool.kept, device, out / "kept.jpg")
    save(average.module, out)
    print(f"done after {time.time() - began:.0f} s, {step} steps, {pool.count} photos", flush=True)


def show_batch(path, x, face, counts):
    pictures = ((x[:16] * 0.2 + 0.5).clamp(0, 1) * 255).byte().permute(0, 2, 3, 1).cpu().numpy().copy()
    for picture, f, c in zip(pictures, face[:16, 0].cpu().numpy(), counts[:16, 0].cpu().numpy()):
        edge = cv2.morphologyEx((f > 0.5).astype(np.uint8), cv2.MORPH_GRADIENT, np.ones((3, 3), np.uint8))
        picture[edge > 0] = (255, 0, 0)
        picture[c < 0.5] //= 2
    count = len(pictures) // 4 * 4
    cv2.imwrite(str(path), np.vstack([np.hstack(pictures[i:i + 4]) for i in range(0, count, 4)])[..., ::-1])


def save(net, out):
    torch.save({k: v.cpu() for k, v in net.state_dict().items()}, out / "faces.pt")
    network.export(net, str(out / "slice-faces.onnx"), name="slice-faces")


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--scenes", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--seconds", type=float, default=540, help="all in all")
    parser.add_argument("--start-with", type=int, default=300, help="photos before training begins")
    parser.add_argument("--most", type=int, default=24000, help="photos kept in memory")
    parser.add_argument("--rate", type=float, default=2.5e-3)
    parser.add_argument("--tell", type=float, default=60, help="seconds between figures")
    parser.add_argument("--resume")
    torch.backends.cudnn.benchmark = True
    torch.manual_seed(5)
    np.random.seed(5)
    train(parser.parse_args(), "cuda" if torch.cuda.is_available() else "cpu")


if __name__ == "__main__":
    main()
