"""How long a frame and all that is read off it take, against making as many bare joint objects. Printed, never asserted.

python3 manage.py test tests/bench -s
"""

import gc
from collections.abc import Callable
from dataclasses import replace
from statistics import median
from time import process_time

from structures.frame import drawing
from structures.frame.build import build_frame, put_together
from structures.frame.build.gaps import measure_gaps
from structures.frame.compute import compute
from structures.frame.document import Joint
from structures.frame.family import Configuration, Family
from structures.frame.kit import count_kit
from structures.frame.marks import make_marks
from structures.frame.sequence import make_sequence
from tests.structures.families import family, fullest
from tests.structures.full_families import everything

ROUNDS = 7
DRAWN_BAYS = 24
FAMILIES = {
    # A family made longer than it is sold, so that a hundred bays can be built.
    "G26 D with every option": lambda: replace(family("g26-d"), longest_in=100 * 48),
    "The family that holds every kind of piece, with every option": everything,
}


def test_frame_and_kit_against_bare_joints(capsys):
    with capsys.disabled():
        for name, made in FAMILIES.items():
            print(f"\n\n{name}: frame and kit, best of {ROUNDS}")
            heads("put together", "checked", "kit", "bare joints", "ratio", "unchecked")
            for bays in (8, 32, 100):
                joints, bare, together, checked, kit = frame_row(made(), bays)
                row(bays, joints, ms(together), ms(checked), ms(kit), ms(bare, 2), f"{(checked + kit) / bare:.1f}",
                    f"{(together + kit) / bare:.1f}")


def test_all_that_is_read_off_a_frame_against_bare_joints_and_by_the_bay(capsys):
    with capsys.disabled():
        for name, made in FAMILIES.items():
            print(f"\n\n{name}: frame with its gaps, marks, sequence and kit, best of {ROUNDS}")
            heads("all of it", "its gaps", "bare joints", "ratio", "a bay", "a bay more")
            before = (0, 0.0)
            for bays in (25, 50, 100):
                joints, bare, every, gaps = whole_row(made(), bays)
                more = (every - before[1]) / (bays - before[0])
                row(bays, joints, ms(every), ms(gaps), ms(bare, 2), f"{every / bare:.1f}", ms(every / bays, 3),
                    ms(more, 3) if before[0] else "")
                before = bays, every


def test_a_document_and_its_drawings(capsys):
    made = family("g26-d")
    configuration = fullest(made, DRAWN_BAYS * 48)
    document = compute(made, configuration, sha256="")
    with capsys.disabled():
        print(f"\n\nG26 D of {DRAWN_BAYS} bays with every option, median of {ROUNDS}")
        print(f"{'the document':>20} {ms(median(times_of(lambda: compute(made, configuration, sha256='')))):>9}")
        for view in drawing.views_of(document):
            sizes = {size: median(times_of(lambda view=view, size=size: drawing.render(document, view, size)))
                     for size in ("wide", "narrow")}
            print(f"{view:>20} {ms(sizes['wide']):>9} wide {ms(sizes['narrow']):>9} narrow")


def frame_row(made: Family, bays: int) -> tuple[int, float, float, float, float]:
    """Joints; seconds for them bare, for a frame that is only put together, for one with all its checks, and for the kit."""
    configuration = of_bays(made, bays)
    frame = build_frame(made, configuration)
    return (len(frame.joints), bare_joints(frame.joints), best_of(lambda: put_together(made, configuration)),
            best_of(lambda: build_frame(made, configuration)), best_of(lambda: count_kit(frame)))


def whole_row(made: Family, bays: int) -> tuple[int, float, float, float]:
    """Joints; seconds for them bare, for all that is read off the frame, and for its gaps alone."""
    configuration = of_bays(made, bays)
    frame = build_frame(made, configuration)
    return (len(frame.joints), bare_joints(frame.joints), best_of(lambda: read_off(made, configuration)),
            best_of(lambda: measure_gaps(frame)))


def read_off(made: Family, configuration: Configuration) -> None:
    frame = build_frame(made, configuration)
    count_kit(frame)
    make_marks(frame)
    make_sequence(frame)


def of_bays(made: Family, bays: int) -> Configuration:
    """A length of the family with every option that it can have."""
    return fullest(made, bays * made.spacings_in[0])


def bare_joints(joints: list[Joint]) -> float:
    """Seconds to make as many joints from what they hold: the floor of everything here."""
    fields = [{name: getattr(joint, name) for name in Joint.__slots__} for joint in joints]
    return best_of(lambda: [Joint(**given) for given in fields])


def best_of(act: Callable[[], object]) -> float:
    return min(times_of(act))


def times_of(act: Callable[[], object]) -> list[float]:
    """Several goes, in seconds of this process, without the collector's pauses."""
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
    return times


def heads(*words: str) -> None:
    row("bays", "joints", *words)


def row(bays: int | str, joints: int | str, *cells: str) -> None:
    print(f"{bays:>5} {joints:>7}", *(f"{cell:>12}" for cell in cells))


def ms(seconds: float, places: int = 1) -> str:
    return f"{seconds * 1000:.{places}f} ms"
