"""Who may open what: roles, the doors of a view, and the one door to a structure.

Every view in the product carries a rule (`view.access_rule`), set by one of the decorators below; a test walks the
resolver and fails on an address without one. An owner may open everything.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from typing import Any

from django.contrib.auth.views import redirect_to_login
from django.core.exceptions import PermissionDenied
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase

from structures.models import Structure, User

ROLES = ("warehouse", "support", "grower", "owner")
View = Callable[..., HttpResponseBase]


@dataclass(frozen=True, slots=True)
class Rule:
    """Who may come in: `roles` is empty for anybody signed in, `open` means nobody is asked."""

    roles: frozenset[str] = frozenset()
    open: bool = False

    def admits(self, user: Any) -> bool:
        """Whether this person may open the page; the object behind it has a door of its own."""
        if self.open:
            return True
        return bool(user.is_authenticated and (not self.roles or user.role in self.roles))


def for_roles(*roles: str) -> Callable[[View], View]:
    """Open to these roles and to owners. Others on the staff get 403; a grower gets 404, as if nothing were there."""
    unknown = set(roles) - set(ROLES)
    if unknown or not roles:
        raise ValueError(f"for_roles() was given {sorted(unknown) or 'nothing'}: the roles are {', '.join(ROLES)}.")
    return _guard(Rule(roles=frozenset({*roles, "owner"})))


def signed_in(view: View) -> View:
    """Open to everybody who is signed in."""
    return _guard(Rule())(view)


def everyone(view: View) -> View:
    """Open to all, signed in or not."""
    return _guard(Rule(open=True))(view)


def _guard(rule: Rule) -> Callable[[View], View]:
    def decorate(view: View) -> View:
        @wraps(view)
        def guarded(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
            if refusal := _refusal(rule, request):
                return refusal
            return view(request, *args, **kwargs)

        guarded.access_rule = rule  # type: ignore[attr-defined]
        return guarded

    return decorate


def _refusal(rule: Rule, request: HttpRequest) -> HttpResponse | None:
    user = request.user
    if rule.admits(user):
        return None
    if not user.is_authenticated:
        # An address that only takes a POST is no place to come back to after signing in.
        back = request.get_full_path() if request.method in ("GET", "HEAD") else "/"
        return redirect_to_login(back)
    if user.role == User.Role.GROWER:
        raise Http404
    raise PermissionDenied(f"It belongs to {_whose(rule)}")


def _whose(rule: Rule) -> str:
    """ "the owner", "support or the owner"; this becomes the beginning of the sentence on the 403 page."""
    names = [role if role == "support" else f"the {role}" for role in ROLES if role in rule.roles]
    return " or ".join(names)


def structures_of(user: User) -> QuerySet[Structure]:
    """The structures this person may see: all for the staff, their own for a grower."""
    if user.is_staff_role:
        return Structure.objects.all()
    # A subquery and not a join: somebody who left and came back has two rows and must see the structure once.
    return Structure.objects.filter(
        pk__in=user.belongings.filter(until__isnull=True).values("structure_id")
    )


def structure_for(user: User, tag: str) -> Structure:
    """The structure with this tag. Raises `Http404` when there is none or it is not theirs to see."""
    found = structures_of(user).select_related("design", "design__family").filter(tag=tag).first()
    if found is None:
        raise Http404
    return found
