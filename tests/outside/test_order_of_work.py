"""The order of work held against graphs: what needs what is read off the frozen document here, and networkx judges the order.

The graph is built in this file from the joints' `holds`, the ends of sections and the way of building, and shares no code with
what sorted the steps. What may follow what: common practice, no source. networkx's own topological sort says whether our
numbering is one.
"""

import dataclasses
import itertools

import networkx as nx
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.family import OneOff
from structures.frame.lengths import feet_inches
from structures.frame.reader import read_family
from tests.outside.test_counts import TEMPLATE, half_of, radius_of, structures, text_of
from tests.structures.families import NAMES, family, fullest, shortest_and_longest
from tests.structures.full_family import full_document

TIMED = {"anchor", "crank", "rope", "door", "blower"}      # put in at a time of their own


def needs_of(doc):
    """A graph of places: an edge from what is needed to what needs it."""
    graph = nx.DiGraph()
    pieces = {piece.id: piece for piece in doc.pieces()}
    slides = {one.code for one in doc.hardware if one.goes_on == "slips over an end"}
    graph.add_nodes_from([*pieces, *(joint.id for joint in doc.joints)])
    for joint in doc.joints:
        held = [pieces[ident] for ident in joint.holds]
        sections = [piece for piece in held if piece.role == "section"]
        if joint.fitting in slides and sections:
            # It must be on before what it slips over stands, and what is bolted to it comes after.
            graph.add_edges_from((joint.id, piece.id) for piece in held)
        else:
            graph.add_edges_from((piece.id, joint.id) for piece in held)
        if doc.put_up == "sides first":
            _need_of_posts(graph, held, sections)
        if joint.kind not in TIMED:
            _need_of_sticks(graph, held, sections)
        if len(sections) == 2 and doc.put_up == "sides first":
            below = [section for section in sections if "foot" in section.from_ + section.to]
            graph.add_edges_from((low.id, high.id) for low in below for high in sections if high not in below)
    _need_of_braces(graph, doc)
    _need_of_runs(graph, doc)
    return graph


def _need_of_posts(graph, held, sections):
    """No section stands before its post or runner. (Whole hoops are joined on the ground, and the foot's joint comes later.)"""
    for ground in held:
        if ground.role in ("post", "runner"):
            graph.add_edges_from((ground.id, section.id) for section in sections)


def _need_of_sticks(graph, held, sections):
    """A stick needs the hoops that it is held by, and the stick before it; a tie's web needs its tie."""
    sticks = sorted((piece for piece in held if piece.role in ("stick", "end")), key=lambda piece: piece.start[1])
    graph.add_edges_from((section.id, stick.id) for section in sections for stick in sticks)
    graph.add_edges_from((near.id, far.id) for near, far in itertools.pairwise(sticks))
    ties = [piece for piece in held if piece.role == "tie"]
    graph.add_edges_from((tie.id, piece.id) for tie in ties for piece in held if piece.role == "web")
    graph.add_edges_from((section.id, tie.id) for tie in ties for section in sections)


def _need_of_braces(graph, doc):
    """A brace needs the section of its lower end, and a roof brace the one above it at its corner."""
    on = {joint.id: [ident for ident in joint.holds if ":section:" in ident] for joint in doc.joints}
    for brace in doc.braces:
        ends = sorted((brace.landing_from, brace.landing_to), key=lambda landing: landing.from_foot_in)
        wanted = ends if brace.zone == "roof" else ends[:1]
        graph.add_edges_from((section, brace.id) for landing in wanted for section in on.get(landing.joint, ()))
        for other in doc.braces:
            alike = (other.zone, other.chain, other.corner) == (brace.zone, brace.chain, brace.corner)
            if brace.zone == "roof" and alike and _middle(other) > _middle(brace):
                graph.add_edge(other.id, brace.id)


def _middle(brace):
    return brace.landing_from.from_foot_in + brace.landing_to.from_foot_in


def _need_of_runs(graph, doc):
    """The ridge run comes before the others."""
    sticks = [member for member in doc.members if member.role in ("stick", "end")]
    ridge = [member for member in sticks if member.from_.endswith("-ridge")]
    if ridge:
        last = max(ridge, key=lambda member: member.start[1])
        graph.add_edges_from((last.id, member.id) for member in sticks if member not in ridge)


def check(doc):
    """Every place in exactly one step, our numbering a topological order, and each step's `needs` reaching what it must."""
    wanted = sorted([*(piece.id for piece in doc.pieces()), *(joint.id for joint in doc.joints)])
    assert sorted(ident for step in doc.sequence for ident in (*step.pieces, *step.joints)) == wanted
    assert [step.step for step in doc.sequence] == list(range(1, len(doc.sequence) + 1))
    step_of = {ident: step.step for step in doc.sequence for ident in (*step.pieces, *step.joints)}
    graph = needs_of(doc)
    assert nx.is_directed_acyclic_graph(graph)
    steps = nx.DiGraph()
    steps.add_nodes_from(step.step for step in doc.sequence)
    steps.add_edges_from((step_of[a], step_of[b]) for a, b in graph.edges if step_of[a] != step_of[b])
    assert nx.is_directed_acyclic_graph(steps), nx.find_cycle(steps)
    assert list(nx.lexicographical_topological_sort(steps)) == [step.step for step in doc.sequence]
    told = nx.DiGraph([(need, step.step) for step in doc.sequence for need in step.needs])
    told.add_nodes_from(steps)
    assert list(nx.lexicographical_topological_sort(told)) == [step.step for step in doc.sequence]
    before = {step: nx.ancestors(told, step) for step in told}
    assert [(a, b) for a, b in steps.edges if a not in before[b]] == []


@pytest.mark.parametrize("name", NAMES)
def test_every_demo_family_has_a_topological_order_with_all_its_options(name):
    made = family(name)
    for length_in in shortest_and_longest(made):
        full = fullest(made, length_in)
        for base in made.bases:
            check(compute(made, dataclasses.replace(full, base=base), sha256="0" * 64))


@pytest.mark.parametrize(("base", "ends"), [("fixed", ("framed", "open")), ("skid", ("door", "sliding")),
                                            ("rolling", ("inward", "framed"))])
def test_a_frame_of_every_kind_of_piece_has_one_on_every_base(base, ends):
    """Webs, braces in one piece, runners, boards, pipes, doors and gear."""
    check(full_document(96, base, ends))


@st.composite
def changes(draw):
    """What is changed of a random structure: the way of building, the seams, which bands slip on, options, a piece left out."""
    return {
        "put_up": draw(st.sampled_from(["whole", "sides first"])),
        "seam": draw(st.integers(20, 130)),
        "slips": draw(st.sets(st.sampled_from(["brace-band", "tie-band", "end-band", "connector"]))),
        "without": draw(st.sets(st.sampled_from(["side-braces", "ties"]))),
        "roofed": draw(st.booleans()),
        "framed": draw(st.booleans()),
        "left_out": draw(st.integers(0, 400)),
    }


def family_text(drawn, changed):
    """A random shape of the common-practice file, put together otherwise."""
    width, leg, peak, pitch, spacing, _, _, _ = drawn
    half = half_of(width, leg, radius_of(width, leg, peak, pitch), pitch)
    text = text_of(width, leg, peak, pitch, spacing, half).replace('put_up = "sides first"', f'put_up = "{changed["put_up"]}"')
    seam = changed["seam"]
    text = text.replace('at = "4-6"', f'at = "{seam} in"').replace('length = "5-0"', f'length = "{seam + 6} in"')
    text = text.replace(f'length = "{feet_inches(2 * half - 108)}"', f'length = "{2 * half - 2 * seam:.4f} in"')
    text = text.replace("screw_from_mouth", "may_be_covered = true\nscrew_from_mouth")
    for fitting in changed["slips"]:
        text = text.replace(f"[fittings.{fitting}]\n", f'[fittings.{fitting}]\ngoes_on = "slips over an end"\n')
    return text


@settings(max_examples=60, deadline=None)
@given(structures(), changes())
def test_every_piece_and_joint_of_a_random_family_is_in_one_step_after_all_that_it_needs(drawn, changed):
    width, leg, peak, pitch, spacing, bays, _, _ = drawn
    assume(radius_of(width, leg, peak, pitch) > 30)
    assume(spacing * bays >= 288)
    made = read_family(family_text(drawn, changed), source="random.toml")
    end = "framed" if changed["framed"] else "open"

    def ask(one_offs=()):
        return compute(made, choose(made, length_in=spacing * bays, ends=(end, end), without=changed["without"],
                                    with_=["roof-braces"] if changed["roofed"] else [], one_offs=one_offs), sha256="0" * 64)

    doc = ask()
    check(doc)
    assert {step.how for step in doc.sequence} <= {"fit now", "hang and tie", "wait", ""}
    loose = [*(brace.id for brace in doc.braces), *(tie.id for tie in doc.ties)]
    if loose:
        check(ask((OneOff("leave out", loose[changed["left_out"] % len(loose)], "A. Owner", "asked for", "2024-03-01"),)))


def test_a_cycle_would_be_seen():
    """The judge itself: an edge turned round makes the steps no topological order."""
    made = read_family(TEMPLATE, source="common_practice_30.toml")
    doc = compute(made, choose(made, length_in=576, spacing_in=72), sha256="0" * 64)
    graph = needs_of(doc)
    post, stick = next(iter(graph.edges))
    graph.add_edge(stick, post)
    assert not nx.is_directed_acyclic_graph(graph)
