"""Every figure of the theory pages, by name.

Each file theory_*.py beside this one registers its figures as it is imported,
so a new file is found by itself.
"""

import importlib
import pkgutil

import generator.figures
from generator.figures.plates import FIGURES

for _module in pkgutil.iter_modules(generator.figures.__path__):
    if _module.name.startswith("theory_") and __name__ != f"generator.figures.{_module.name}":
        importlib.import_module(f"generator.figures.{_module.name}")


def theory_figure(name: str) -> str:
    """The complete `<figure>` of that name.  KeyError, with the names there are, if there is none."""
    if name not in FIGURES:
        raise KeyError(f"No figure is called {name}; there are {', '.join(sorted(FIGURES))}.")
    return FIGURES[name]()
