"""The examples in the docstrings are true."""

import doctest
import importlib
import pkgutil

import pytest

import exercises

MODULES = [m.name for m in pkgutil.walk_packages(exercises.__path__, "exercises.")]


@pytest.mark.parametrize("name", MODULES)
def test_docstring_examples(name):
    assert doctest.testmod(importlib.import_module(name)).failed == 0
