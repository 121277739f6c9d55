"""Worked examples, as Markdown: one file for each kind, found by the kind's slug; see example.py."""
