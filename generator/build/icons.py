"""The site as something that can be installed: its icons, drawn as site_assets/icon.svg is, and its manifest."""

import io
import json
from functools import partial

from generator.build.cache import cached

PAPER, INK, ACCENT, NORTH, SOUTH = "#fbf8f1", "#22302f", "#0f6b62", "#b23a2e", "#2b4f9e"
PAPER_DARK = "#1c2322"  # --er-paper of the evening page in notebook.css
#: name -> pixels, and how large the drawing is in it; a maskable icon may be cut to a circle of 4/5 of its width
#: (W3C Web Application Manifest, “icon masks and safe zone”)
PICTURES = {"icon-192.png": (192, 1.0), "icon-512.png": (512, 1.0), "icon-mask-512.png": (512, 0.76)}

MANIFEST = {
    "name": "Eight Readings",
    "short_name": "Eight Readings",
    "description": "Worked examples and self-checking exercises for the deflection magnetometer",
    "lang": "en",
    # relative to the manifest, which lies at the site's root
    "start_url": "./",
    "scope": "./",
    "display": "minimal-ui",
    "theme_color": PAPER,
    "background_color": PAPER,
    "icons": [
        {"src": "eight/icon.svg", "sizes": "any", "type": "image/svg+xml"},
        {"src": "eight/icon-192.png", "sizes": "192x192", "type": "image/png"},
        {"src": "eight/icon-512.png", "sizes": "512x512", "type": "image/png"},
        {"src": "eight/icon-mask-512.png", "sizes": "512x512", "type": "image/png", "purpose": "maskable"},
    ],
}


def installable_files() -> dict[str, bytes | str]:
    """Address in the site -> content, of the manifest and the pictures it names."""
    files: dict[str, bytes | str] = {"manifest.webmanifest": json.dumps(MANIFEST, indent=1) + "\n"}
    for name, (pixels, part) in PICTURES.items():
        files[f"eight/{name}"] = cached(name, partial(_drawn, pixels, part))
    return files


def _drawn(pixels: int, part: float) -> bytes:
    """The compass box of icon.svg as a PNG, as wide as the given part of the picture, in its middle.

    If the part is below 1, all round it is paper; otherwise it is transparent.
    """
    # matplotlib takes longer to load than the site to build, so only when something is to be drawn
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure
    from matplotlib.patches import Circle, Polygon

    figure = Figure(figsize=(1, 1), dpi=pixels, facecolor=PAPER if part < 1 else "none")
    FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    half = 32 / part  # of the view, in the units of icon.svg
    axes.set(xlim=(32 - half, 32 + half), ylim=(32 + half, 32 - half))
    axes.axis("off")
    point = 72 * part / 64  # a unit of icon.svg in points, on a figure one inch wide
    axes.add_patch(Circle((32, 32), 29, facecolor=PAPER, edgecolor=INK, linewidth=4 * point))
    for x, y in (((8, 14), (32, 32)), ((50, 56), (32, 32)), ((32, 32), (8, 14)), ((32, 32), (50, 56))):
        axes.plot(x, y, color=INK, linewidth=3 * point, solid_capstyle="butt")
    axes.plot((13, 51), (19, 45), color=ACCENT, linewidth=4 * point, solid_capstyle="round")
    axes.add_patch(Polygon(((39, 22), (35.4, 34.5), (28.5, 29.8)), color=NORTH, linewidth=0, zorder=3))
    axes.add_patch(Polygon(((25, 42), (28.5, 29.8), (35.4, 34.5)), color=SOUTH, linewidth=0, zorder=3))
    picture = io.BytesIO()
    figure.savefig(picture, format="png", metadata={"Software": None})
    return picture.getvalue()
