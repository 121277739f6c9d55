"""Mutation testing of exercises/: a change is made in one place of the code, and a test should notice.

    uv run --group mutation python -m tests.mutation --sample 300

Not part of the test run.  Prints `mutation_score` and every change that no test noticed.
"""
