"""Training scenes: read from the renderer's files, changed on the card as no renderer seed gives them.

A scene here is 512 x 512 pixels: the photo, the cut faces in it (share of each pixel, 0 to 1), bread of
any kind (face, side, crust below), and which pixels count: where a hand covers a face nobody can say.
"""

import pathlib

import cv2
import numpy as np
import torch
from torch.nn import functional as F

SIDE = 512
FINE = 4  # outlines are filled at this many times the resolution


def read_scene(path):
    """Photo (uint8 RGB), face and bread (uint8, 255 is all of the pixel), counts (bool)."""
    raw = pathlib.Path(path).read_bytes()
    width, height, things, slices = np.frombuffer(raw, "<i4", 4)
    at, face = 16, np.zeros((height * FINE, width * FINE), np.uint8)
    for _ in range(slices):
        count = int(np.frombuffer(raw, "<i4", 1, at)[0])
        points = np.frombuffer(raw, "<f4", 2 * count, at + 4).reshape(-1, 2)
        at += 4 + 8 * count
        cv2.fillPoly(face, [np.round((points + 0.5) * FINE - 0.5).astype(np.int32)], 255)
    pixels = int(width) * int(height)
    photo = np.frombuffer(raw, np.uint8, 3 * pixels, at).reshape(height, width, 3)
    bread = np.frombuffer(raw, np.uint8, pixels, at + 3 * pixels).reshape(height, width)
    face = cv2.resize(face, (int(width), int(height)), interpolation=cv2.INTER_AREA)
    counts = np.ones(face.shape, np.uint8)
    if things:  # fingers over the rim; cells that go right through a slice lie further in
        rim = cv2.distanceTransform((face > 127).astype(np.uint8), cv2.DIST_L2, 5) < 0.1 * SIDE
        counts[(face > 127) & (bread < 128) & rim] = 0
    return photo, face, bread, counts


def padded(picture, fill=0):
    """In the middle of SIDE x SIDE."""
    height, width = picture.shape[:2]
    top, left = (SIDE - height) // 2, (SIDE - width) // 2
    sides = (top, SIDE - height - top, left, SIDE - width - left)
    return cv2.copyMakeBorder(picture, *sides, cv2.BORDER_CONSTANT, value=fill)


def jpeg(photo, random):
    done, packed = cv2.imencode(".jpg", photo[..., ::-1],
                                [cv2.IMWRITE_JPEG_QUALITY, int(random.integers(60, 98))])
    assert done
    return cv2.imdecode(packed, cv2.IMREAD_COLOR)[..., ::-1]


def load_scene(path):
    """One array, SIDE x SIDE x 6, uint8: RGB, face, bread, and 1 in the frame plus 2 where it counts."""
    photo, face, bread, counts = read_scene(path)
    seed = int(pathlib.Path(path).stem.replace("-", ""))
    photo = jpeg(photo, np.random.default_rng(seed))
    return np.dstack([padded(photo), padded(face), padded(bread), padded(1 + 2 * counts)])


def uniform(n, low, high, device):
    return low + (high - low) * torch.rand(n, 1, 1, 1, device=device)


def some(n, share, device):
    return (torch.rand(n, 1, 1, 1, device=device) < share).float()


def noise(n, channels, cells, device):
    """Smooth noise, about -1 to 1, of `cells` cells across."""
    coarse = torch.rand(n, channels, cells, cells, device=device) * 2 - 1
    return F.interpolate(coarse, size=(SIDE, SIDE), mode="bicubic", align_corners=False)


def blurred(x, sigma):
    radius = max(1, int(2.5 * sigma))
    at = torch.arange(-radius, radius + 1, device=x.device, dtype=x.dtype)
    kernel = torch.exp(-0.5 * (at / sigma) ** 2)
    kernel = (kernel / kernel.sum()).view(1, 1, 1, -1).expand(x.shape[1], 1, 1, -1)
    x = F.conv2d(F.pad(x, (radius, radius, 0, 0), mode="replicate"), kernel, groups=x.shape[1])
    return F.conv2d(F.pad(x, (0, 0, radius, radius), mode="replicate"),
                    kernel.transpose(2, 3), groups=x.shape[1])


def moved(x, face, bread, counts, frame):
    """Turned by any angle, mirrored, larger or smaller, off the middle; the world beyond the frame is
    its mirror image, as good as any."""
    n, device = len(x), x.device
    turn = torch.randn(n, device=device) * 0.12
    quarter = (torch.rand(n, device=device) < 0.45).float() * torch.randint(0, 4, (n,), device=device)
    any_turn = (torch.rand(n, device=device) < 0.2).float() * torch.rand(n, device=device) * 6.283
    angle = turn + quarter * (np.pi / 2) + any_turn
    size = torch.exp(torch.empty(n, device=device).uniform_(-0.3, 0.35))
    mirror = torch.where(torch.rand(n, device=device) < 0.5, -1.0, 1.0)
    c, s = torch.cos(angle) * size, torch.sin(angle) * size
    shift = torch.empty(n, 2, device=device).uniform_(-0.15, 0.15)
    matrix = torch.stack([torch.stack([c * mirror, -s, shift[:, 0]], 1),
                          torch.stack([s * mirror, c, shift[:, 1]], 1)], 1)
    grid = F.affine_grid(matrix, (n, 1, SIDE, SIDE), align_corners=False)
    # The frame's own padding must not come in: beyond the frame nothing counts.
    every = torch.cat([x, face, bread, counts, frame], 1)
    every = F.grid_sample(every, grid, mode="bilinear", padding_mode="reflection",
                          align_corners=False)
    return every[:, :3], every[:, 3:4], every[:, 4:5], (every[:, 5:6] > 0.99).float(), \
        (every[:, 6:7] > 0.99).float()


def colour_in(x, mask):
    return (x * mask).sum((2, 3), keepdim=True) / mask.sum((2, 3), keepdim=True).clamp(min=1)


def other_ground(x, bread, frame):
    """Grounds of any colour and pattern, a third of them of the bread's own colours, under the light
    and the shadows that were there."""
    n, device = len(x), x.device
    ground = (1 - bread) * frame
    own = colour_in(x, ground)
    shade = (x / own.clamp(min=0.02)).mean(1, keepdim=True).clamp(0, 1.6)
    smooth_shade = blurred(shade, 2.0)
    colours = []
    for _ in range(2):
        free = torch.rand(n, 3, 1, 1, device=device)
        grey = free.mean(1, keepdim=True)
        free = grey + (free - grey) * uniform(n, 0, 1, device)
        alike = colour_in(x, bread) * torch.exp(0.3 * torch.randn(n, 1, 1, 1, device=device)
                                                + 0.1 * torch.randn(n, 3, 1, 1, device=device))
        pick = some(n, 0.33, device)
        colours.append(pick * alike + (1 - pick) * free)
    rows = torch.linspace(0, 1, SIDE, device=device).view(1, 1, -1, 1)
    columns = torch.linspace(0, 1, SIDE, device=device).view(1, 1, 1, -1)
    angle = uniform(n, 0, 6.283, device)
    along = columns * torch.cos(angle) + rows * torch.sin(angle)
    across = rows * torch.cos(angle) - columns * torch.sin(angle)
    bend = 0.03 * noise(n, 1, 6, device)
    pitch = torch.exp(uniform(n, 1.5, 4.8, device))
    sharp = torch.exp(uniform(n, 0, 2.5, device))
    stripes = torch.sigmoid(sharp * 2 * torch.sin(6.283 * pitch * (along + bend)))
    checks = 0.5 * stripes + 0.5 * torch.sigmoid(sharp * 2 * torch.sin(6.283 * pitch * across))
    cloud = 0.5 + 0.35 * noise(n, 1, 5, device) + 0.3 * noise(n, 1, 24, device) \
        + 0.25 * noise(n, 1, 128, device)
    kind = torch.rand(n, 1, 1, 1, device=device)
    pattern = torch.where(kind < 0.3, stripes, torch.where(kind < 0.5, checks, cloud.clamp(0, 1)))
    second = colours[0] + uniform(n, 0, 1, device) * (colours[1] - colours[0])
    made = colours[0] + pattern * (second - colours[0])
    made = made * smooth_shade * (1 + 0.06 * noise(n, 1, 200, device) * uniform(n, 0, 1, device))
    # As a cloth or board of its own, with an edge somewhere, or all over.
    edge = torch.sigmoid(400 * (along - uniform(n, -0.6, 0.9, device)))
    everywhere = some(n, 0.6, device)
    share = ground * torch.maximum(edge, everywhere) * some(n, 0.45, device) * uniform(n, 0.5, 1, device)
    return x + share * (made - x)


def other_shadows(x, bread, frame):
    """A harder shadow beside the bread, and now and then one over everything."""
    n, device = len(x), x.device
    by = torch.empty(n, 2, device=device).uniform_(-0.11, 0.11)
    eye = torch.eye(2, device=device).expand(n, 2, 2)
    grid = F.affine_grid(torch.cat([eye, by[:, :, None]], 2), (n, 1, SIDE, SIDE), align_corners=False)
    cast = torch.zeros_like(bread)
    for step in (0.25, 0.5, 0.75, 1.0):
        g = grid * step + (1 - step) * F.affine_grid(
            torch.cat([eye, torch.zeros_like(by)[:, :, None]], 2), (n, 1, SIDE, SIDE),
            align_corners=False)
        cast = torch.maximum(cast, F.grid_sample(bread, g, padding_mode="border", align_corners=False))
    if torch.rand(()) < 0.5:
        cast = blurred(cast, float(torch.empty(()).uniform_(0.8, 6)))
    depth = uniform(n, 0.25, 0.85, device) * some(n, 0.4, device)
    x = x * (1 - depth * (cast * (1 - bread)).clamp(0, 1))
    rows = torch.linspace(-1, 1, SIDE, device=device).view(1, 1, -1, 1)
    columns = torch.linspace(-1, 1, SIDE, device=device).view(1, 1, 1, -1)
    angle = uniform(n, 0, 6.283, device)
    side = columns * torch.cos(angle) + rows * torch.sin(angle) + 0.15 * noise(n, 1, 5, device)
    over = torch.sigmoid(torch.exp(uniform(n, 1.5, 5, device)) * (side - uniform(n, -0.7, 0.7, device)))
    return x * (1 - over * uniform(n, 0.1, 0.65, device) * some(n, 0.2, device))


def other_light(x):
    n, device = len(x), x.device
    x = x.clamp(1e-4, 1) ** torch.exp(uniform(n, -0.35, 0.35, device))
    grey = x.mean(1, keepdim=True)
    x = grey + (x - grey) * uniform(n, 0.3, 1.4, device)
    x = x * (1 + 0.08 * torch.randn(n, 3, 1, 1, device=device))
    if torch.rand(()) < 0.35:
        x = x + uniform(n, 0, 1, device) * (blurred(x, float(torch.empty(()).uniform_(0.5, 1.6))) - x)
    if torch.rand(()) < 0.25:
        x = x + uniform(n, 0, 0.8, device) * (x - blurred(x, float(torch.empty(()).uniform_(0.8, 3))))
    return (x + uniform(n, 0, 0.03, device) * torch.randn_like(x)).clamp(0, 1)


def normalised(x, frame):
    """As FaceNetwork does it: each channel less its mean over the picture, all over the scatter of
    brightness; 0 outside the picture."""
    pixels = frame.sum((2, 3), keepdim=True).clamp(min=1)
    x = (x - (x * frame).sum((2, 3), keepdim=True) / pixels) * frame
    scatter = ((x.mean(1, keepdim=True) ** 2).sum((2, 3), keepdim=True) / pixels).sqrt()
    return x / (scatter + 0.05)


def parts(batch):
    """From N x SIDE x SIDE x 6 uint8: photo, face, bread, counts, frame."""
    p = batch.permute(0, 3, 1, 2)
    flags = p[:, 5:6]
    return (p[:, :3].float() / 255, p[:, 3:4].float() / 255, p[:, 4:5].float() / 255,
            ((flags & 2) > 0).float(), ((flags & 1) > 0).float())


def training_batch(batch):
    """Network input, face, and what counts."""
    x, face, bread, counts, frame = moved(*parts(batch))
    x = other_ground(x, bread, frame)
    x = other_shadows(x, bread, frame)
    x = other_light(x)
    return normalised(x, frame), face, counts * frame
