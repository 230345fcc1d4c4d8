"""Whether the pieces of a file fit one another: what the reader says, word for word."""

import pytest

from tests.structures.family_texts import changed, sentences, text_of


@pytest.mark.parametrize(("pairs", "said"), [
    pytest.param(
        [('wall = "0.083 in"', 'wall = "0.95 in"')],
        ['tubes.hoop.wall = "0.95 in" leaves no hollow in a tube of "1.9 in": less than half of that would do.'],
        id="a tube that is a bar",
    ),
    pytest.param(
        [('tube = "hoop"\nlength = "12-6"\n', 'weight_lb = 12\n')],
        [
            'parts.HS26-S.tube is missing: name one of [tubes].',
            'parts.HS26-S.length is missing: write its made length.',
            'parts.HS26-S.weight_lb is worked out from diameter, wall and length: leave this line out.',
        ],
        id="a piece without tube and length",
    ),
    pytest.param(
        [('[parts.UB14]', '[parts."ub 14"]')],
        [
            'parts.ub 14 is no name that can be here: write it like HS26-S.',
            'fittings.upright-bracket.parts = "UB14" names no part of this file: did you mean SC14?',
        ],
        id="a part in small letters",
    ),
    pytest.param(
        [('length = "12-6"', 'length = "12-8"')],
        [
            "hoop.sections: the sections less their swages add up to 41-11 15/16, and the hoop's tube is 41-7 15/16 long: "
            'change a section, a swage or the shape.',
        ],
        id="sections too long together",
    ),
    pytest.param(
        [('length = "12-6"', 'length = "12-7"'), ('length = "17-7 15/16"', 'length = "17-5 15/16"')],
        [
            'parts.HS26-S.length = 12-7, and between its seams, with its swages, section 1 of the hoop is 12-6 long: write '
            '12-6, or move a seam.',
            'parts.HS26-R.length = 17-5 15/16, and between its seams, with its swages, section 2 of the hoop is 17-7 15/16 '
            'long: write 17-7 15/16, or move a seam.',
        ],
        id="sections that meet off their seam",
    ),
    pytest.param(
        [('sections = ["HS26-S", "HS26-R", "HS26-S"]', 'sections = ["HS26-S", "HS26-R"]')],
        ['hoop.sections names 2 sections, and the seams join 3: name them from the left foot over the ridge to the right foot.'],
        id="too few sections",
    ),
    pytest.param(
        [('sections = ["HS26-S", "HS26-R", "HS26-S"]', 'sections = ["HS26-S", "HS26-Q", "HS26-S"]')],
        ['hoop.sections = "HS26-Q" names no part of this file: did you mean HS26-S?'],
        id="a section nobody knows",
    ),
    pytest.param(
        [
            ('sections = ["HS26-S", "HS26-R", "HS26-S"]', 'sections = ["HS26-S", "PS131-106", "HS26-S"]'),
            ('length = "10-6"', 'length = "17-7 15/16"'),
        ],
        [
            'hoop.sections = "PS131-106" is a part with the role stick: name one with the role section, or change '
            'parts.PS131-106.role.',
        ],
        id="a stick for a section",
    ),
    pytest.param(
        [('at = "12-0"\n', '')],
        ['hoop.seams.both.at is missing: write where its mouth lies from the foot, like "12-0" or "ridge - 6in".'],
        id="a seam at no place",
    ),
    pytest.param(
        [('screw_from_mouth = "3 in"', 'screw_from_mouth = "8 in"')],
        ['hoop.seams.both.screw_from_mouth = 0-8 misses the swage, which is 0-6 long: less than that would do.'],
        id="a screw past the swage",
    ),
    pytest.param(
        [('bolt_at = "4 in"', 'bolt_at = "14 in"')],
        ['posts.bolt_at = 1-2 is above the post, which stands 1-0 above ground: less than that would do.'],
        id="a bolt above the post",
    ),
    pytest.param(
        [('near_swaged = true', 'near_swaged = false')],
        [
            'runs.ridge.near_swaged = false: the tag-end fitting and the first stick face each other with two plain ends: '
            'write runs.ridge.near_swaged = true, or turn the sticks with swages_point or saw_end.',
            'runs.ridge.near_end = "PE131-10" is 1-6 long, and end_lay with its swage makes 1-0: change one of them.',
        ],
        id="two plain ends facing at the tag end",
    ),
    pytest.param(
        [('swages_point = "away"', 'swages_point = "toward"')],
        [
            'runs.ridge.near_swaged = true: the tag-end fitting and the first stick face each other with two swaged ends: '
            'write runs.ridge.near_swaged = false, or turn the sticks with swages_point or saw_end.',
            'runs.ridge.saw_end = "swaged" takes away the swage that joins the last stick to the one before it: write '
            'runs.ridge.saw_end = "plain".',
        ],
        id="swages turned the other way",
    ),
    pytest.param(
        [('saw_end = "swaged"', 'saw_end = "plain"')],
        [
            'runs.ridge.far_swaged = true: the far-end fitting and the last stick face each other with two swaged ends: '
            'write runs.ridge.far_swaged = false, or turn the sticks with swages_point or saw_end.',
        ],
        id="two swaged ends facing at the far end",
    ),
    pytest.param(
        [('swage = "6 in"\nnear_end', 'swage = "11ft"\nnear_end')],
        ['runs.ridge.swage = "11ft" can\'t be: from 0-0 to 5-0 would do.'],
        id="a swage that is all of the stick",
    ),
    pytest.param(
        [('code = "ridge"\n', 'code = "roof"\n')],
        ['runs.roof.code = "roof" is no code that a run can have: bays have a side and a roof already, so another word would do.'],
        id="a run called by a zone",
    ),
    pytest.param(
        [('hole_offset = "1 5/8 in"\nhole_direction = "lengthwise"\n', 'hole_direction = "lengthwise"\n')],
        [
            'fittings.brace-band.hole_offset is missing, and it holds chain side and chain roof: write how far the bolt hole '
            "lies from the tube's axis.",
        ],
        id="a hole at no distance",
    ),
    pytest.param(
        [('hole_offset = "1 5/8 in"', 'hole_offset = "1 1/2 in"')],
        [
            "fittings.brace-band.hole_offset = 0-1 1/2 is less than the hoop's radius and the flattened end of chain side and "
            'chain roof together: 0-1 9/16 or more would do.',
        ],
        id="a hole too close",
    ),
    pytest.param(
        [('hole_direction = "lengthwise"', 'hole_direction = "inward"')],
        ['fittings.brace-band.hole_direction = "inward", and it holds chain side and chain roof: write "lengthwise".'],
        id="a hole the wrong way",
    ),
    pytest.param(
        [('fitting = "tie-band"', 'fitting = "brace-band"')],
        [
            'chains.side.fitting = "brace-band" is the fitting of chain side and chain roof and tie ties: a brace\'s hole '
            "lies lengthwise and a tie's inward, so give each a fitting of its own.",
        ],
        id="one band for braces and ties",
    ),
    pytest.param(
        [('BC190 = 1', 'BC19 = 1')],
        ['fittings.brace-band.parts = "BC19" names no part of this file: did you mean BC190?'],
        id="a clamp nobody knows",
    ),
    pytest.param(
        [('length = "10ft"\nweight_lb = 3.4', 'weight_lb = 3.4')],
        ['parts.CH10.length is missing, and strip channel is made of it: write the length that it comes in.'],
        id="channel of no length",
    ),
    pytest.param(
        [('part = "FR44-100"', 'part = "HB12"')],
        ['film.film.part = "HB12" is a part of kind lengthwise: name one of kind film, or change parts.HB12.kind.'],
        id="a board for film",
    ),
    pytest.param(
        [('roll_width = "44ft"', 'roll_width = "43ft"')],
        ['film.film.roll_width = 43-0, and the sheet with its hold-down is 43-7 15/16 wide: a wider roll would do.'],
        id="film too narrow",
    ),
    pytest.param(
        [('run = "end hoops"', 'run = "end hoops"\nstation = "hip"')],
        ['strips.channel.station means nothing on the end hoops, where the strip runs from foot to foot: leave it out.'],
        id="a station for the end hoops",
    ),
    pytest.param(
        [('station = "hip"\noption = "channel"', 'option = "channel"')],
        ['strips.channel.station is missing: write it like "hip".'],
        id="no station for the sides",
    ),
    pytest.param(
        [('upright_fitting = "upright-bracket"\n', '')],
        ['end_walls.framed.upright_fitting is missing: name the fitting that holds each upright.'],
        id="uprights held by nothing",
    ),
    pytest.param(
        [('[[film]]', '[[allowances]]\npart = "SC14"\nmeasure = "channel"\ncount = 1\n\n[[film]]')],
        ['allowances.SC14.every is missing: write for how much channel the count is, like "10ft".'],
        id="an allowance by no measure",
    ),
])
def test_it_says_what_is_wrong_and_what_would_do(pairs, said):
    assert sentences(changed(*pairs)) == said


def test_swages_may_point_the_other_way_when_both_ends_follow():
    """Toward the tag end: the first stick's swage goes into a plain end, the last stick is sawn at its plain end."""
    runs = text_of("g26-d").count("[[runs]]")
    turned = text_of("g26-d")
    for _ in range(runs):
        turned = turned.replace('swages_point = "away"\nsaw_end = "swaged"', 'swages_point = "toward"\nsaw_end = "plain"', 1)
        turned = turned.replace('near_swaged = true', 'near_swaged = false', 1).replace('near_end = "PE131-10"', 'near_end = "PE131-12"', 1)
    turned = turned.replace("[parts.SB26]", '[parts.PE131-12]\nname = "Purlin end, plain"\nrole = "end"\nkind = "tube"\ntube = "purlin"\n'
                            'length = "1-0"\n\n[parts.SB26]', 1)
    assert sentences(turned) == []


def test_hole_offsets_have_no_least_margin_above_what_touches():
    """The hoop's radius and the rounded end's, 0.95 + 0.5625, may just touch."""
    assert sentences(changed(('hole_offset = "1 5/8 in"', 'hole_offset = "1.5125 in"'))) == []


def test_a_family_may_have_no_posts_and_no_film():
    text = text_of("g26-d")
    start, end = text.index("[posts]"), text.index("# Sizes on offer")
    assert sentences(text[:start] + text[end:]) == []
