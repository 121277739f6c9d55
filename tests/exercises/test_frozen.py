"""What is kept and shared between sheets cannot be changed by whoever holds it."""

import dataclasses
import importlib
import pkgutil

import pytest

import exercises

FOUND = {
    thing
    for module in pkgutil.walk_packages(exercises.__path__, "exercises.")
    for thing in vars(importlib.import_module(module.name)).values()
    if isinstance(thing, type) and dataclasses.is_dataclass(thing) and thing.__module__.startswith("exercises.")
}


@pytest.mark.parametrize("kept", sorted(FOUND, key=str), ids=lambda c: c.__name__)
def test_every_dataclass_is_frozen(kept):
    assert kept.__dataclass_params__.frozen
