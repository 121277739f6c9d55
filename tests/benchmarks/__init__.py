"""Figures, not verdicts: `uv run python -m tests.benchmarks [NAME ...]` prints `name: value` lines."""
