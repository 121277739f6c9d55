"""The golden codes and their numbers, as they were when their edition was made."""

import json
from pathlib import Path

GOLDEN = [json.loads(line) for line in Path(__file__).with_name("golden.jsonl").read_text().splitlines()]
