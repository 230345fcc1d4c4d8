"""What papers need beyond pages: a drawing as a picture of its own."""

from __future__ import annotations

from base64 import b64encode

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString

register = template.Library()


@register.simple_tag
def pictured(svg: str) -> SafeString:
    """A drawing with its own pencils as an image in the paper. Inside the page's HTML the PDF library would read and style
    every line of it as an element of the page, which takes half as long again."""
    return format_html('<img alt="" src="data:image/svg+xml;base64,{}">', b64encode(svg.encode()).decode())
