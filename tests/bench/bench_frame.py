"""How long a frame and its kit take, against making as many bare joint objects. Printed, never asserted.

python3 manage.py test tests/bench -s
"""

import gc
from collections.abc import Callable
from dataclasses import replace
from time import process_time

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.document import Joint
from structures.frame.kit import count_kit
from tests.structures.families import family, fullest, shortest_and_longest

BAYS = (8, 32, 100)
ROUNDS = 7


def test_frame_and_kit_against_bare_joints(capsys):
    # A family made longer than it is sold, so that the longest of the three can be built.
    made = replace(family("g26-d"), longest_in=100 * 48)
    codes = fullest(family("g26-d"), shortest_and_longest(family("g26-d"))[1]).options
    rows = [row_for(made, codes, bays) for bays in BAYS]
    with capsys.disabled():
        print("\n\nFrame and kit of G26 D with every option, best of", ROUNDS)
        print(f"{'bays':>5} {'joints':>7} {'frame and kit':>14} {'bare joints':>12} {'ratio':>6} {'ms a bay':>9}")
        for bays, joints, ours, bare in rows:
            print(f"{bays:>5} {joints:>7} {ours * 1000:>11.1f} ms {bare * 1000:>9.2f} ms {ours / bare:>6.1f} {ours * 1000 / bays:>9.3f}")


def row_for(made, codes: frozenset[str], bays: int) -> tuple[int, int, float, float]:
    left_out = {option.code for option in made.options} - codes
    configuration = choose(made, length_in=bays * 48, spacing_in=48, with_=codes, without=left_out)
    joints = build_frame(made, configuration).joints
    ours = best_of(lambda: count_kit(build_frame(made, configuration)))
    fields = [{name: getattr(joint, name) for name in Joint.__slots__} for joint in joints]
    bare = best_of(lambda: [Joint(**given) for given in fields])
    return bays, len(joints), ours, bare


def best_of(act: Callable[[], object]) -> float:
    """The shortest of several goes, in seconds of this process, without the collector's pauses."""
    gc.collect()
    gc.disable()
    try:
        times = []
        for _ in range(ROUNDS):
            start = process_time()
            act()
            times.append(process_time() - start)
    finally:
        gc.enable()
    return min(times)
