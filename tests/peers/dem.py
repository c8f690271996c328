"""Lot-sized windows of a real terrain grid: the Jacksboro fault, as it ships with Matplotlib.

`jacksboro_fault_dem.npz` holds elevations of the USGS in metres, posts some 90 m apart. A window of it is brought to
the size of a lot: spots 2 m apart, heights scaled alike, so that slopes stay what they are. The spots are shifted in
plan by a known pattern, so that no four stand on one circle and there is one Delaunay triangulation only.
"""

import pathlib

import matplotlib
import numpy as np

GRID = pathlib.Path(matplotlib.get_data_path()) / "sample_data" / "jacksboro_fault_dem.npz"
SIDE = 22  # spots along each side of a window
APART = 2.0  # metres
SCALE = 45.0  # the posts of the grid stand some 90 m apart
WINDOWS = [(40, 60), (120, 200), (200, 310), (300, 120)]


def spots(row: int, column: int) -> np.ndarray:
    """The spots of a window: x, y and z, metres, about the origin."""
    heights = np.load(GRID)["elevation"][row : row + SIDE, column : column + SIDE].astype(float) / SCALE
    i, j = np.meshgrid(np.arange(SIDE), np.arange(SIDE), indexing="ij")
    x = APART * (j - SIDE / 2) + 0.37 * np.sin(12.9898 * i + 78.233 * j)
    y = APART * (i - SIDE / 2) + 0.37 * np.sin(39.346 * i + 11.135 * j + 1.0)
    return np.column_stack([x.ravel(), y.ravel(), heights.ravel()])
