"""Write the digests of the current engine."""

import json

from structures.frame.document import ENGINE
from tests.structures.frozen import CASES, HERE, build, digest

path = HERE / f"{ENGINE}.json"
path.write_text(json.dumps({case: digest(build(case)) for case in CASES}, indent=1) + "\n", encoding="utf-8")
print(path)
