"""Drawings of one joint of its kind: face and section at 40 px to the inch (27 where there is little room)."""

from __future__ import annotations

from .kinds import JointKind, joint_kinds
from .render import KeyRow, joint_key, render_joint

__all__ = ["JointKind", "KeyRow", "joint_key", "joint_kinds", "render_joint"]
