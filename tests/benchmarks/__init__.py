"""Figures, not verdicts: `uv run python -m tests.benchmarks [NAME ...]` prints `name: value` lines.

What each should be is in brackets.

By kind: `single_slip_named` (≥ 0.995), `single_slip_like` (said with one in `like`), `slips_hidden` (0),
`right_refused` (0), `lone_window` (per cent; ≤ 1.2 for tan A, tan B, earth), `near_miss_accepted` (≤ 0.02),
`wrong_accused` (≤ 0.05), `pair_named` (≥ 0.95), `pair_accused`, `mean_falsely_named` (≤ 0.05, with one decimal too),
`mean_named_…` (≥ 0.80), `other_row_named` (≥ 0.98), `hidden_slip_named` (≥ 0.90), `hidden_slip_named_least` (of the
slip named least), `single_slip_named_whole_cm` and `single_slip_falsely_named_whole_cm` (0), also with `_short_bar`,
`slowest_sheet_ms` (≤ 50), `scenarios_per_second`, `check_ms`, and in the browser `check_ms_p95` (≤ 16). Of a class:
`class_seconds_N` (of 10,000 ≤ 10), `mark_seconds_N` (≤ 15) where its `_loop_ns_` is 40, otherwise in proportion,
`desk_seconds` (≤ 5), `marks_file_open_s` (≤ 5, in the browser), `class_growth` (by name only). Of the start:
`first_check_ratio` (≤ 0.30), `first_check_ratio_slow` (≤ 0.45), `first_check_ratio_mobile` (≤ 0.72),
`bytes_ratio_plain_host` (≤ 0.45), `bytes_ratio_gzip_host` (≤ 0.82), `second_visit_ratio` (≤ 0.20), `kept_MB` (≤ 8, of a
host that compresses). Of a first visit on a phone's network: `first_paint_mobile_s` (≤ 4), `exercise_first_visit_ms`,
`exercise_after_reading_ms`. Of pages: `page_kB_max` (≤ 250), `page_kB_max_plain` (≤ 350, of a host that compresses
nothing), `cls_max` and `cls_max_slow` (0; on a slow start), `far_px.KIND.WIDTH`, the greatest height between an entry
and a datum it needs (≤ 300 at 1280, ≤ 350 at 360), `sheet_px.tan-a.1280`, five distances from the first reading to the
last result (≤ 850), `lighthouse_PAGE_…` (≥ 95). Of records: `record_false_alarms` (≤ 0.01). Of the bench, by a
simulated student: `bench_misread_caught` (≥ 0.95), `bench_misread_5_caught` (≥ 0.90), `bench_false_warnings` (≤ 0.02),
`bench_taps_per_reading` (≤ 1), `bench_answer_ms`, `bench_answer_ms_most` (≤ 50). Of what is stated, over bars of
`tests/real_bars.py`: `record_moment_covered`, `record_pole_covered` (≥ 0.90), `record_moment_width` (≤ 2.5),
`record_pole_width` (≤ 15), the same four with `_near` (of bars that lie close by), `sheet_moment_covered` (≥ 0.90),
`sheet_rejected` (≤ 0.05), `sheet_share_MATERIAL`. Of the build: `build_ratio`, `first_build_ratio`. By name only:
`soak`, `random_strings`.
"""
