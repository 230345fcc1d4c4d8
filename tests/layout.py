"""The layout as tables: which modules are pure, and which layer every other module belongs to. Read by test_layout.py."""

import ast
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]

# An app may import itself and those before it.
APPS = ("structures", "inventory", "inspections")

# No Django, no database, no clock, no settings: dataclasses in, dataclasses out. A name stands for the module and all below it.
PURE = (
    "structures.frame",
    "structures.making",
    "structures.showing",
    "inventory.answer_words",
    "inventory.answering",
    "inventory.lots",
    "inventory.matching",
    "inventory.one_offs",
    "inventory.package_words",
    "inventory.packages",
    "inventory.phones",
    "inventory.stock_file",
    "inventory.twins",
    "inventory.whereabouts",
    "inspections.checklist",
    "inspections.mending",
    "inspections.places",
    "inspections.schedule",
    "inspections.states",
    "inspections.storms",
    "inspections.walk",
)
# What pure modules may use beside the standard library and each other.
PURE_MAY_USE = ("phonenumbers",)

# Inside an app a module may import its own layer and those before it. A new module goes into one of them, here.
LAYERS = (
    ("pure", "refusals", "sentences"),
    ("models", "triggers", "guards", "photos", "papers", "stand_ins", "uploads", "middleware", "migrations"),
    ("queries", "events", "access", "rooms"),
    ("actions", "ledger", "requests"),
    ("forms", "tables", "lists"),
    ("views", "templatetags", "admin", "admin_site", "demo_data", "demo_orders", "management"),
    ("urls", "checks", "apps"),
    ("project",),
)


@dataclass(frozen=True)
class Import:
    """One import of one module by another: the line, when it runs ("load", "call" or "typing"), and the lines around it."""

    module: str
    imported: str
    line: int
    when: str
    text: str


def python_files(*folders: str) -> list[Path]:
    """Every Python file below these folders of the project, in order."""
    return [path for folder in folders for path in sorted((ROOT / folder).rglob("*.py"))]


def module_of(path: Path) -> str:
    """Give the dotted name of a file."""
    return ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__")


def is_pure(module: str) -> bool:
    """Say whether a module is on the list of pure ones, itself or by the package it lies in."""
    return any(module == name or module.startswith(name + ".") for name in PURE)


def layer_of(module: str) -> int | None:
    """Give the place of a module in LAYERS, or None for one that has none yet. The app's own `__init__` imports nothing."""
    parts = module.split(".")
    name = "pure" if len(parts) == 1 or is_pure(module) else parts[1]
    return next((rank for rank, names in enumerate(LAYERS) if name in names), None)


@cache
def modules() -> dict[str, Path]:
    """Every module of the three apps."""
    return {module_of(path): path for path in python_files(*APPS)}


@cache
def imports() -> list[Import]:
    """Every import in the three apps. `from a import b` is an import of `a.b` where that is a module, else of `a`."""
    return [found for module, path in modules().items() for found in _imports_of(module, path)]


def _imports_of(module: str, path: Path) -> list[Import]:
    source = path.read_text()
    tree = ast.parse(source)
    when = {id(node): moment for statement in tree.body for node, moment in _moments(statement)}
    lines = source.splitlines()
    return [
        Import(module, name, node.lineno, when.get(id(node), "call"), lines[node.lineno - 2] + "\n" + lines[node.lineno - 1])
        for node in ast.walk(tree)
        for name in _names(node, module, is_package=path.name == "__init__.py")
    ]


def _moments(statement: ast.stmt) -> list[tuple[ast.AST, str]]:
    """The nodes that run when the module is loaded, or that only a type checker reads; bodies of functions are left out."""
    if isinstance(statement, (ast.FunctionDef, ast.AsyncFunctionDef)):
        return []
    if isinstance(statement, ast.If) and ast.unparse(statement.test).endswith("TYPE_CHECKING"):
        return [(node, "typing") for child in statement.body for node in ast.walk(child)]
    below = [child for child in ast.iter_child_nodes(statement) if isinstance(child, ast.stmt)]
    return [(statement, "load"), *(found for child in below for found in _moments(child))]


def _names(node: ast.AST, module: str, *, is_package: bool) -> list[str]:
    if isinstance(node, ast.Import):
        return [alias.name for alias in node.names]
    if not isinstance(node, ast.ImportFrom):
        return []
    source = node.module or ""
    if node.level:
        parts = module.split(".")
        above = parts[: len(parts) - node.level + (1 if is_package else 0)]
        source = ".".join([*above, *([source] if source else [])])
    return [f"{source}.{alias.name}" if f"{source}.{alias.name}" in modules() else source for alias in node.names]
