"""The frame: laws that hold for every family and size, and refusals word for word."""

import dataclasses
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from structures.frame.build import build_frame
from structures.frame.choose import choose
from structures.frame.compute import compute
from structures.frame.family import Landing, OneOff, Station
from structures.frame.refusal import Refused
from tests.structures.frames import all_names, document, family


def configured(fam, **asked):
    return choose(fam, **asked)


def refused(fam, **asked):
    with pytest.raises(Refused) as caught:
        build_frame(fam, configured(fam, **asked))
    return [str(refusal) for refusal in caught.value.refusals]


def with_station(fam, name, inches):
    return dataclasses.replace(fam, stations={**fam.stations, name: Station(name, inches, "")})


def with_chain(fam, code, **changes):
    chains = tuple(dataclasses.replace(c, **changes) if c.code == code else c for c in fam.chains)
    return dataclasses.replace(fam, chains=chains)


def side_chain(fam):
    return next(chain for chain in fam.chains if chain.zone == "side")


@st.composite
def demo_documents(draw):
    name = draw(st.sampled_from(all_names()))
    fam = family(name)
    spacing = fam.spacings_in[0]
    bays = draw(st.integers(int(-(-fam.shortest_in // spacing)), int(min(fam.longest_in, 1800) // spacing)))
    optional = [option.code for option in fam.options if option.offer == "optional" and not option.replaced_by]
    chosen = draw(st.sets(st.sampled_from(optional))) if optional else set()
    try:
        configuration = choose(fam, length_in=bays * spacing, with_=chosen)
    except Refused:
        configuration = choose(fam, length_in=bays * spacing)
    return compute(fam, configuration, sha256="0" * 64)


@settings(max_examples=40, deadline=None)
@given(demo_documents())
def test_laws_of_every_frame(doc):
    ids = [item.id for group in (doc.members, doc.joints, doc.braces, doc.ties, doc.panels) for item in group]
    assert len(ids) == len(set(ids))
    assert all(ident.split(":")[0] == code for ident, code in ((j.id, j.code) for j in doc.joints))
    known = set(ids)
    assert all(held in known for joint in doc.joints for held in joint.holds)
    for line in doc.lines:
        assert line.needed == sum(because.count for because in line.because)
        assert line.quantity == line.needed + line.spares + line.pack_rounding
        for because in line.because:
            assert set(because.where) <= known
            assert not because.where or because.count == because.per * len(because.where)
    ends = sum(member.role == "end" for member in doc.members)
    webs = sum(":web:" in member.id for member in doc.members)
    bands = sum(joint.kind == "band" for joint in doc.joints)
    assert bands == 2 * (len(doc.braces) + len(doc.ties) + ends + webs) + sum(len(brace.passes) for brace in doc.braces)
    assert doc.measures.hoops == doc.measures.bays + 1
    assert all(brace.clearance_in >= 0 for brace in doc.braces)


@pytest.mark.parametrize("name", ["g20-b", "g26-d", "g30-b", "r14-a"])
def test_mirrored_corners_have_opposite_hands_and_diagonal_ones_the_same(name):
    doc = document(name, 60)
    twists = {(b.corner, b.role, i % 2): round(b.twist_deg, 6) for i, b in enumerate(doc.braces) if "mid" not in b.corner}
    by_corner = {}
    for (corner, role, _), twist in twists.items():
        by_corner.setdefault(role, {}).setdefault(corner, []).append(twist)
    for corners in by_corner.values():
        left, right = sorted(corners["tag left"]), sorted(-t for t in corners["tag right"])
        assert left == pytest.approx(right)
        assert sorted(corners["tag left"]) == pytest.approx(sorted(corners["far right"]))


def test_both_landings_on_one_straight_have_no_twist_and_no_bend():
    uppers = [b for b in document("g26-d").braces if b.role == "roof-upper"]
    assert len(uppers) == 4
    for brace in uppers:
        assert (brace.twist_deg, brace.bend_from_deg, brace.bend_to_deg) == pytest.approx((0, 0, 0), abs=1e-6)


def test_of_two_butted_bands_the_lower_is_number_one_and_they_touch():
    doc = document("g26-d")
    pair = {j.id: j.from_foot_in for j in doc.joints if j.code == "H2-R-mid"}
    assert pair["H2-R-mid:band:2"] - pair["H2-R-mid:band:1"] == pytest.approx(1.25, abs=1e-6)


def test_a_piece_that_passes_a_hoop_at_its_own_level_is_refused():
    fam = family("g26-d")
    chain = side_chain(fam)
    skipping = with_chain(fam, chain.code, landings=(Landing(1, "brace-hip"), Landing(3, "foot", True)),
                          roles=("side-brace",))
    parts = {n: dataclasses.replace(p, length_in=None) if p.role == "side-brace" else p for n, p in fam.parts.items()}
    found = refused(dataclasses.replace(skipping, parts=parts))
    assert "B1-L-side:brace:1 runs through hoop 2 by 1 5/8 in.: move a landing so that they clear." in found


def test_a_piece_that_runs_through_a_purlin_is_refused_naming_both():
    fam = family("g26-d")
    runs = tuple(dataclasses.replace(run, station="roof") if run.code == "purlin" else run for run in fam.runs)
    lower = {n: dataclasses.replace(p, tube=fam.hoop.tube) if p.role == "roof-upper" else p for n, p in fam.parts.items()}
    found = refused(dataclasses.replace(with_station(fam, "roof", fam.stations["roof"].from_foot_in), runs=runs,
                                        parts={n: dataclasses.replace(p, length_in=None) if p.role.startswith("roof") else p
                                               for n, p in lower.items()}))
    assert any("overlap by" in sentence or "runs through" in sentence for sentence in found)


def test_bands_that_overlap_are_refused_naming_both():
    fam = family("g26-d")
    parts = {n: dataclasses.replace(p, length_in=None) if p.role == "roof-lower" else p for n, p in fam.parts.items()}
    crowded = with_station(fam, "shoulder", fam.stations["purlin"].from_foot_in + 1)
    found = refused(dataclasses.replace(crowded, parts=parts))
    assert found[0].startswith("The purlin end band at H1-L-purlin and the brace band at H1-L-shoulder overlap by ")
    assert found[0].endswith("move one of their stations at least that far.")


def said_of_posts(inside, stands):
    """What a G20 is warned of whose posts stand so far up, at hoop 3 on the left."""
    fam = family("g20-b")
    frame = build_frame(dataclasses.replace(fam, posts=dataclasses.replace(fam.posts, inside=inside, stands_in=stands)), choose(fam))
    return [said for said in map(str, frame.warnings) if "H3-L-" in said]


def test_a_band_on_a_post_that_stands_round_the_leg_is_warned_about_with_the_least_that_would_clear_it():
    """G20's lowest bands lie 8 in. up and are 1 1/4 in. wide: their lower edges 7 3/8 in. up."""
    assert said_of_posts(inside=False, stands=7.5) == [
        "The brace band at H3-L-foot lies 0-8 up its hoop, where the ground post stands round the leg up to 0-7 1/2: 0-8 1/8 or more "
        "would clear it."]
    assert said_of_posts(inside=False, stands=7.375) == []
    assert said_of_posts(inside=True, stands=7.5) == []


def test_chains_that_share_a_bay_say_how_many_hoops_are_needed():
    fam = dataclasses.replace(family("g26-d"), shortest_in=96)
    assert refused(fam, length_in=144)[0] == (
        "The side braces from both ends would share bay 2 at 4 hoops: at least 5 hoops are needed, which is 16-0."
    )


def test_a_tie_longer_than_the_hoop_is_wide_is_refused_with_what_would_do():
    fam = family("g26-d")
    parts = {n: dataclasses.replace(p, length_in=400.0) if p.role == "tie" else p for n, p in fam.parts.items()}
    found = refused(dataclasses.replace(fam, parts=parts))
    assert found == ["Tie TI26 of 33-4 is longer than the hoop is wide between its holes: 25-8 3/4 at most would do."]


def test_a_made_length_that_does_not_match_is_refused_with_both_figures():
    fam = family("g26-d")
    parts = {n: dataclasses.replace(p, length_in=50.0) if p.role == "side-brace" else p for n, p in fam.parts.items()}
    assert refused(dataclasses.replace(fam, parts=parts))[0] == (
        "Part SB26 (side-brace) is made 4-2 long but this spacing of 4-0 needs 4-1 3/8: they must match within 1/8 in."
    )


def test_a_band_over_a_seam_is_warned_about():
    fam = family("g26-d")
    seams = tuple(dataclasses.replace(seam, from_foot_in=fam.stations["purlin"].from_foot_in) for seam in fam.hoop.seams)
    frame = build_frame(dataclasses.replace(fam, hoop=dataclasses.replace(fam.hoop, seams=seams)), choose(fam))
    assert any("covers the seam of its hoop" in str(warning) for warning in frame.warnings)


def one_off(act, target, **more):
    return OneOff(act, target, "Olive Barrow", "the customer's door stands there", "2026-03-01", **more)


def built(*one_offs, name="g26-d"):
    fam = family(name)
    return compute(fam, choose(fam, length_in=576, one_offs=one_offs), sha256="0" * 64)


def test_a_piece_left_out_is_gone_from_kit_marks_and_frame():
    plain, changed = built(), built(one_off("leave out", "B1-L-side:brace:1"))
    counts = [{line.part: line.needed for line in doc.lines} for doc in (plain, changed)]
    assert counts[0]["SB26"] - counts[1]["SB26"] == 1
    assert counts[0]["BC190"] - counts[1]["BC190"] == 2
    assert "B1-L-side:brace:1" not in {brace.id for brace in changed.braces}
    top = [m for m in changed.marks if m.code == "brace-hip"]
    assert {(m.side, m.hoops) for m in top} == {("left", (13,)), ("right", (1, 13))}


def test_a_tie_moved_to_another_hoop_keeps_its_station():
    plain, changed = built(), built(one_off("move", "H4-tie:tie:1", target_2="H5"))
    assert {tie.hoop for tie in changed.ties} == {tie.hoop for tie in plain.ties} - {4} | {5}
    assert {round(tie.station_in, 6) for tie in changed.ties} == {round(plain.ties[0].station_in, 6)}
    assert len(changed.joints) == len(plain.joints)


def test_a_tie_added_brings_two_bands():
    plain, changed = built(), built(one_off("add", "H5", part="TI26"))
    assert len(changed.ties) == len(plain.ties) + 1
    assert Counter(j.kind for j in changed.joints)["band"] == Counter(j.kind for j in plain.joints)["band"] + 2


def test_a_brace_moved_along_its_hoops_keeps_its_length_and_identity():
    changed = built(one_off("leave out", "B1-L-side:brace:1"), one_off("move", "B2-L-side:brace:1", by_in=2.0))
    piece = next(b for b in changed.braces if b.id == "B2-L-side:brace:1")
    assert piece.landing_to.from_foot_in == pytest.approx(10.0) or piece.landing_from.from_foot_in == pytest.approx(10.0)
    a, b = piece.landing_from.hole, piece.landing_to.hole
    assert sum((p - q) ** 2 for p, q in zip(a, b, strict=True)) ** 0.5 == pytest.approx(piece.length_in, abs=1e-6)


def test_a_tie_is_moved_to_another_hoop_and_the_nearest_free_one_is_named():
    fam = family("g26-d")
    found = refused(fam, length_in=576, one_offs=(one_off("move", "H6-tie:tie:1", by_in=6.0),))
    assert found == [
        "Tie H6-tie:tie:1 keeps its made length and so its height: name the hoop it goes to, as in H5."
    ]


def test_a_one_off_that_names_nothing_says_the_nearest():
    fam = family("g26-d")
    found = refused(fam, length_in=576, one_offs=(one_off("leave out", "B1-L-side:brace:9"),))
    assert found == ["No piece 'B1-L-side:brace:9' is on this structure: did you mean B1-L-side:brace:1?"]


@pytest.mark.parametrize("name", ["r14-a", "g26-a"])
def test_where_the_chains_of_both_ends_meet_on_one_hoop_their_bands_are_butted(name):
    """At four bays both side chains end at the foot of hoop 3: one band below the mark, one above."""
    doc = document(name)
    assert doc.measures.hoops == 5
    pair = {j.id: j.from_foot_in for j in doc.joints if j.code == "H3-R-foot" and j.kind == "band"}
    assert pair == {"H3-R-foot:band:1": pytest.approx(8 - 0.625), "H3-R-foot:band:2": pytest.approx(8 + 0.625)}
