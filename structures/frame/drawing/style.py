"""The pencils: every line, fill and letter of a drawing, as style rules.

`RULES` names colours as `var(--ink)`. A page's drawings take them from the style sheet `drawing.css`, which is
`STYLESHEET` (a test says so) and follows the page's own colours. A drawing that goes into a PDF or stands alone carries the
same rules with one palette's literal colours, since neither page styles nor variables reach into it there; `PAGE`
stays out of it, for a width of 100% inside an SVG makes the PDF library draw nothing at all.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

LIGHT: Mapping[str, str] = {
    "paper": "#ffffff", "paper-2": "#f3f4f1", "ink": "#12161a", "ink-3": "#5c656d", "ink-4": "#7f8890",
    "blue": "#1a45c4", "blue-wash": "#d9e4fc", "red": "#b1201a",
    "face-narrow": "'Plex Condensed', sans-serif",
}
DARK: Mapping[str, str] = {
    **LIGHT, "paper": "#0e1216", "paper-2": "#1a2026", "ink": "#f1f3f4", "ink-3": "#a2abb2", "ink-4": "#79838b",
    "blue": "#8fb2ff", "blue-wash": "#1d2f5e", "red": "#ff8f85",
}
GREY: Mapping[str, str] = {
    **LIGHT, "paper-2": "#ffffff", "ink-3": "#3d454c", "blue": "#12161a", "blue-wash": "#d9d9d6", "red": "#12161a",
}

PAGE = """\
/* Drawings: every number in a drawing is a CSS pixel at 1:1. Wide and narrow are two drawings, never one scaled. */
.dw { display: block; width: 100%; height: auto; }
/* a life-size drawing keeps the millimetres that it says */
.dw.life { width: max-content; max-width: none; }
"""
RULES = """\
.dw * { fill: none; stroke-linecap: butt; stroke-linejoin: round; }
.dw text { font-family: var(--face-narrow); font-weight: 500; fill: var(--ink); stroke: none; }
.dw .f11 { font-size: 11px; }
.dw .f12 { font-size: 12px; }
.dw .f13 { font-size: 13px; }
.dw .f14 { font-size: 14px; }
.dw .f15 { font-size: 15px; }
.dw .q { fill: var(--ink-3); }
.dw .blue { fill: var(--blue); }
.dw .red { fill: var(--red); }
/* tubes: an outline with paper inside, so a nearer tube hides a farther one */
.dw .tube-o { stroke: var(--ink); }
.dw .tube-i { stroke: var(--paper); }
.dw .tube-o.t1 { stroke-width: 3.2; }
.dw .tube-i.t1 { stroke-width: 1.5; }
.dw .tube-o.t2 { stroke-width: 4.6; }
.dw .tube-i.t2 { stroke-width: 2.4; }
.dw .tube-o.t3 { stroke-width: 7; }
.dw .tube-i.t3 { stroke-width: 4.4; }
.dw .obj1 { stroke: var(--ink); stroke-width: 0.9; }
.dw .obj15 { stroke: var(--ink); stroke-width: 1.2; }
.dw .obj2 { stroke: var(--ink); stroke-width: 2; }
.dw .obj3 { stroke: var(--ink); stroke-width: 2.6; }
.dw .far { stroke: var(--ink-4); stroke-width: 1; }
.dw .far.thin { stroke-width: 0.7; }
.dw .wall { stroke: var(--ink-3); stroke-width: 0.8; }
.dw .tie { stroke: var(--ink-3); stroke-width: 1.1; }
.dw .hid { stroke: var(--ink-4); stroke-width: 1; stroke-dasharray: 5 3; }
.dw .cen { stroke: var(--ink-4); stroke-width: 0.9; stroke-dasharray: 16 4 3 4; }
.dw .foot { stroke: var(--ink-4); stroke-width: 0.9; stroke-dasharray: 16 4 3 4; }
.dw .dim, .dw .ext { stroke: var(--ink-3); stroke-width: 0.8; }
.dw .lead { stroke: var(--ink-3); stroke-width: 0.8; }
.dw .lead-red { stroke: var(--red); stroke-width: 1; }
.dw .tick { stroke: var(--ink); stroke-width: 1.5; }
.dw .dot, .dw .arrow, .dw .cut { fill: var(--ink); }
.dw .hatch { stroke: var(--ink-4); stroke-width: 0.8; }
.dw .brk { stroke: var(--ink-3); stroke-width: 1; }
.dw .mask { fill: var(--paper); }
.dw .pap { fill: var(--paper); }
/* close up: a band's strap and ear, a connector, a bolt's head; posts and boards hide what lies behind them */
.dw .clamp { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
.dw .conn { fill: var(--paper); stroke: var(--ink); stroke-width: 1.2; }
.dw .bolt-q { fill: var(--paper); stroke: var(--ink); stroke-width: 1.2; }
.dw .pap-s { fill: var(--paper); stroke: var(--ink-3); stroke-width: 0.9; }
/* joints: cut metal is solid ink, the piece asked for is washed, paper hides what lies behind */
.dw .j-lit { fill: var(--blue-wash); stroke: var(--blue); stroke-width: 2; }
.dw .j-fill { fill: var(--blue-wash); }
.dw .j-edge { stroke: var(--blue); stroke-width: 2; }
.dw .j-plain { fill: var(--paper); stroke: var(--ink); stroke-width: 1.4; }
.dw .j-strap { fill: var(--ink); stroke: var(--ink); stroke-width: 0.6; }
.dw .j-cut { fill: var(--ink-3); stroke: var(--ink); stroke-width: 1; }
.dw .j-hole { fill: var(--paper); stroke: var(--ink); stroke-width: 1; }
.dw .j-film { stroke: var(--ink-3); stroke-width: 1.6; stroke-dasharray: 1.5 2.5; }
.dw .j-arr { stroke: var(--ink); stroke-width: 2; }
.dw .mask-l { stroke: var(--paper); stroke-width: 3; }
/* a piece that is lit on the page where it is drawn: a tube's outline becomes the wash, its inside the line */
.dw .sec { stroke: transparent; stroke-width: 7; pointer-events: stroke; }
.dw .pc.is-lit .tube-o { stroke: var(--blue-wash); stroke-width: 13; stroke-linecap: round; }
.dw .pc.is-lit .tube-i { stroke: var(--blue); stroke-width: 4; stroke-linecap: round; }
.dw .pc.is-lit .obj1, .dw .pc.is-lit .obj15, .dw .pc.is-lit .obj3 { stroke: var(--blue); stroke-width: 2.6; }
.dw .pc.is-lit .tie, .dw .pc.is-lit .tick { stroke: var(--blue); stroke-width: 2.6; }
.dw .pc.is-lit .far, .dw .pc.is-lit .sec { stroke: var(--blue); stroke-width: 2; }
/* hoop numbers in rings; a named hoop has the heavy ring */
.dw .bub { fill: var(--paper); stroke: var(--ink-3); stroke-width: 1; }
.dw .bub-lit { stroke: var(--ink); stroke-width: 2; }
.dw .bubt { fill: var(--ink); }
/* lit: weight first, wash second, colour last */
.dw .halo, .dw .halo-s { stroke: var(--blue-wash); stroke-linecap: round; stroke-width: 13; }
.dw .halo-s { stroke-width: 7; }
.dw .lit, .dw .lit-s, .dw .lit-far { stroke: var(--blue); stroke-linecap: round; stroke-width: 4; }
.dw .lit-s { stroke-width: 2.6; }
.dw .lit-far { stroke-width: 2; }
.dw .halo-b, .dw .lit-b { stroke-linecap: round; }
.dw .halo-b { stroke: var(--blue-wash); }
.dw .lit-b, .dw .lit-a { stroke: var(--blue); }
.dw .clamp-lit { fill: var(--blue-wash); stroke: var(--blue); stroke-width: 2; }
.dw .bolt { fill: var(--paper); stroke: var(--blue); stroke-width: 1.6; }
.dw .mk { fill: var(--blue); stroke: var(--paper); stroke-width: 1.5; }
.dw .mkt { fill: var(--paper); }
.dw .mk-2 { stroke: var(--blue); stroke-width: 1.4; }
.dw .mkq { fill: var(--paper); stroke: var(--ink-3); stroke-width: 1; }
.dw .mkqt { fill: var(--ink); }
/* offered, not bought; or replaced: phantom line, open ends */
.dw .gone2 { stroke: var(--ink-3); stroke-width: 2; stroke-dasharray: 16 4 3 4 3 4; }
.dw .gone-end { fill: var(--paper); stroke: var(--ink-4); stroke-width: 1.3; }
/* something wrong: red, broken, flagged by its class */
.dw .fault { stroke: var(--red); stroke-width: 4; stroke-linecap: round; }
.dw .fault-end { fill: var(--paper); stroke: var(--red); stroke-width: 1.8; }
.dw .fault-ring { stroke: var(--red); stroke-width: 2; }
.dw .again-ring { stroke: var(--ink); stroke-width: 2; }
.dw .flag { fill: var(--red); stroke: var(--paper); stroke-width: 1.5; }
.dw .flagt { fill: var(--paper); }
.dw .flag-again { fill: var(--paper); stroke: var(--ink); stroke-width: 2; }
.dw .flagt-again { fill: var(--ink); }
/* the bay in hand and its places */
.dw .now { fill: var(--paper-2); stroke: var(--ink-4); stroke-width: 1; }
.dw .chk-not { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; stroke-dasharray: 2.4 1.8; }
.dw .chk-well { fill: var(--paper); stroke: var(--ink); stroke-width: 1.5; }
.dw .chk-unseen { fill: var(--paper-2); stroke: var(--ink-3); stroke-width: 1.2; }
.dw .chk-tick { stroke: var(--ink); stroke-width: 1.6; }
.dw .chk-hatch { stroke: var(--ink-3); stroke-width: 1; }
.dw .nudge { stroke: var(--ink-3); stroke-width: 0.8; }
.dw .chosen { stroke: var(--ink); stroke-width: 3; }
.dw .target { fill: none; stroke: none; pointer-events: all; }
.dw .hand { stroke: var(--ink); stroke-width: 1.6; }
"""

GLYPHS = """\
/* the states as small signs on a page, and the bar of ready and promised */
.g-ring, .g-tick { stroke: var(--ink); stroke-width: 2; }
.g-tick { stroke-width: 2.6; }
.g-dash { stroke: var(--ink-3); stroke-width: 2; stroke-dasharray: 4 3; }
.g-grey, .g-hatch { stroke: var(--ink-3); stroke-width: 2; }
.g-hatch { stroke-width: 1.6; }
.bar { stroke: var(--ink); stroke-width: 8; }
"""
STYLESHEET = PAGE + RULES + GLYPHS

_VARIABLE = re.compile(r"var\(--([a-z0-9-]+)\)")
_COMMENT = re.compile(r"/\*.*?\*/\n?", re.DOTALL)


def flat_style(palette: Mapping[str, str]) -> str:
    """The rules with the palette's literal colours: nothing in them needs a page, a variable or a media query."""
    return _COMMENT.sub("", _VARIABLE.sub(lambda found: palette[found[1]], RULES))
