"""Training views: rendered on the graphics card, then seen as the analysis would see them.

A view is 384 x 384 pixels of 0.1 mm. Of each: the face as 8-bit RGB, and a map of flags (OPEN, CORE,
FACE, MINOR: open, but of a cell too small to be counted, SPECK: bran or a seed in the solid cut). The
geometry, light and camera come from view_renderer.cu; what a phone does after that, JPEG and the analysis' own rectifying are done here.
"""

import ctypes
import multiprocessing
import os
import pathlib
import time

import cv2
import numpy as np
from scipy import ndimage
from skimage.morphology import skeletonize

SIDE = 384
OPEN, CORE, FACE, MINOR, SPECK = 1, 2, 4, 8, 16
CORE_DEPTH = 2.5  # pixels inside a cell's edge, or half-way to its middle where that is less
VALIDATION_SEED = 1_000_000
MOST_PHOTO_SIDE = 600
MINOR_PIXELS = 12  # a cell of 0.4 mm; from 0.5 mm cells are measured


def load_renderer(path):
    library = ctypes.CDLL(str(path))
    library.loafmark_training_view.restype = ctypes.c_int
    return library


def rendered(library, seed):
    """Photo (RGB, uint8), cells (labels), face (0, 1, or 2 where a speck lies), pixels per mm; None where
    none was made."""
    photo = np.zeros(MOST_PHOTO_SIDE * MOST_PHOTO_SIDE * 3, np.uint8)
    cells = np.zeros((SIDE, SIDE), np.uint16)
    face = np.zeros((SIDE, SIDE), np.uint8)
    scale, wanted = ctypes.c_double(), ctypes.c_float()
    pointer = lambda a: a.ctypes.data_as(ctypes.c_void_p)
    side = library.loafmark_training_view(
        ctypes.c_uint(seed), pointer(photo), pointer(cells), pointer(face),
        ctypes.byref(scale), ctypes.byref(wanted))
    if side == 0:
        return None
    return photo[: side * side * 3].reshape(side, side, 3), cells, face, scale.value


def phone_processed(photo, random):
    """What differs from phone to phone after the tone curve: noise removal, wide sharpening, JPEG."""
    if random.random() < 0.25:
        photo = cv2.bilateralFilter(photo, 0, random.uniform(8, 30), random.uniform(0.8, 2.0))
    if random.random() < 0.1:
        photo = cv2.medianBlur(photo, 3)
    if random.random() < 0.35:  # halo, or local contrast
        radius = np.exp(random.uniform(np.log(1.2), np.log(14)))
        soft = cv2.GaussianBlur(photo, (0, 0), radius)
        photo = cv2.addWeighted(photo, 1 + (k := random.uniform(0.1, 0.8)), soft, -k, 0)
    if random.random() < 0.3:  # a picture that was made smaller and larger again on its way
        share = random.uniform(0.6, 0.95)
        small = cv2.resize(photo, None, fx=share, fy=share, interpolation=cv2.INTER_AREA)
        photo = cv2.resize(small, photo.shape[1::-1], interpolation=cv2.INTER_CUBIC)
    quality = int(random.integers(62, 97))
    done, packed = cv2.imencode(".jpg", photo[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, quality])
    assert done
    return cv2.imdecode(packed, cv2.IMREAD_COLOR)[..., ::-1]


def rectified(photo, pixels_per_mm):
    """As analysis/src/frame.cpp does it: smoothed where the photo is finer than the frame, bilinear."""
    step = 0.1 * pixels_per_mm
    source = cv2.GaussianBlur(photo, (0, 0), 0.35 * step) if step > 1.3 else np.ascontiguousarray(photo)
    first = (photo.shape[0] - 1) / 2 - step * (SIDE - 1) / 2
    matrix = np.array([[step, 0, first], [0, step, first]])
    return cv2.warpAffine(source, matrix, (SIDE, SIDE), flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP)


def core_of(cells):
    """The inside of each cell, in one piece where the cell is one: its deep pixels, and of its
    skeleton the bridges between them."""
    is_open = (cells > 0).astype(np.uint8)
    depth = cv2.distanceTransform(is_open, cv2.DIST_L2, 5)
    deepest = np.zeros(int(cells.max()) + 1, np.float32)
    np.maximum.at(deepest, cells.ravel(), depth.ravel())
    core = (is_open > 0) & (depth > np.minimum(CORE_DEPTH, 0.5 * deepest[cells]))
    parts, count = ndimage.label(core, np.ones((3, 3)))
    if count == 0:
        return core
    bridges, found = ndimage.label(skeletonize(is_open > 0) & ~core, np.ones((3, 3)))
    highest = ndimage.grey_dilation(parts, (3, 3))
    lowest = -ndimage.grey_dilation(np.where(parts > 0, -parts, -(count + 1)), (3, 3))
    numbers = np.arange(found + 1)
    joins = ndimage.maximum(highest, bridges, numbers) > ndimage.minimum(lowest, bridges, numbers)
    joins[0] = False
    thick = cv2.dilate(joins[bridges].astype(np.uint8), np.ones((3, 3), np.uint8))
    return core | ((thick > 0) & (is_open > 0))


def make_view(library, seed):
    """The face (SIDE x SIDE x 3) and its flags; None where the renderer made none."""
    made = rendered(library, seed)
    if made is None:
        return None
    photo, cells, face, scale = made
    random = np.random.default_rng(seed)
    minor = (cells > 0) & (np.bincount(cells.ravel())[cells] <= MINOR_PIXELS)
    flags = (OPEN * (cells > 0) + CORE * core_of(cells) + FACE * (face > 0) + MINOR * minor
             + SPECK * (face == 2))
    return rectified(phone_processed(photo, random), scale), flags.astype(np.uint8)


class ViewStore:
    """Views in files that several processes share; `done[i]` once view i is there."""

    def __init__(self, folder, count):
        folder = pathlib.Path(folder)
        folder.mkdir(parents=True, exist_ok=True)
        self.folder, self.count = folder, count

        def shared(name, shape):
            file = folder / f"{name}.bin"
            if not file.exists():
                with open(file, "wb") as f:
                    f.truncate(int(np.prod(shape)))
            return np.memmap(file, np.uint8, "r+", shape=shape)

        self.faces = shared("faces", (count, SIDE, SIDE, 3))
        self.flags = shared("flags", (count, SIDE, SIDE))
        self.done = shared("done", (count,))


def work(library_path, folder, count, first_seed, worker, workers, until, cards):
    if cards:  # before the renderer, and with it CUDA, is loaded
        os.environ["CUDA_VISIBLE_DEVICES"] = str(cards[worker % len(cards)])
    cv2.setNumThreads(1)
    library, store = load_renderer(library_path), ViewStore(folder, count)
    for i in range(worker, count, workers):
        if time.time() > until:
            return
        view = make_view(library, first_seed + i)
        if view is None:  # a seed without a view leaves its place to another
            view = make_view(library, first_seed + i + 500_000)
        if view is not None:
            store.faces[i], store.flags[i] = view
            store.done[i] = 1


def start_workers(library_path, folder, count, first_seed, workers, until, cards=()):
    """Fills a ViewStore of `count` views from processes of their own, until a time at most; on the
    graphics cards of these numbers in turn, where some are named."""
    ViewStore(folder, count)
    context = multiprocessing.get_context("spawn")
    processes = [
        context.Process(target=work, daemon=True,
                        args=(library_path, folder, count, first_seed, w, workers, until, cards))
        for w in range(workers)
    ]
    for process in processes:
        process.start()
    return processes
