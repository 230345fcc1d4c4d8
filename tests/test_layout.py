"""The layout of the code, enforced: who may import whom, what pure modules may not do, how long things may grow."""

import ast
import re
import subprocess
import sys
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

import pytest
from django.core.management import call_command

from tests.layout import APPS, LAYERS, PURE, PURE_MAY_USE, ROOT, imports, is_pure, layer_of, modules, python_files

LONGEST_FILE = 400
LONGEST_FUNCTION = 50
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "LICENSE", "manage.py", "requirements.txt", *APPS, "templates", "tests"}
# Brought from elsewhere as they are, or written by a command.
NOT_OURS = ("vendor", "migrations")
CLOCKS = {"now", "utcnow", "today", "localtime", "localdate", "monotonic", "perf_counter", "time", "gmtime"}


def ours(*suffixes: str) -> list[Path]:
    """Our own files with these endings."""
    found = [path for folder in (*APPS, "templates", "tests") for path in sorted((ROOT / folder).rglob("*")) if path.suffix in suffixes]
    return [ROOT / "manage.py", *(path for path in found if not set(NOT_OURS) & set(path.parts))]


def told(path: Path, line: int, words: str) -> str:
    return f"{path.relative_to(ROOT)}:{line} {words}"


def test_the_top_level_holds_exactly_what_it_should():
    assert {path.name for path in ROOT.iterdir() if not path.name.startswith(".") and path.name != "__pycache__"} == TOP_LEVEL


def test_every_module_has_a_layer():
    assert [module for module in modules() if layer_of(module) is None] == []
    assert [name for name in PURE if name not in modules()] == []


def test_no_app_imports_one_above_it():
    wrong = []
    for found in imports():
        source, target = found.module.split(".")[0], found.imported.split(".")[0]
        # Root addresses and settings name all apps; nothing else in the lowest one does.
        if target in APPS and APPS.index(target) > APPS.index(source) and not found.module.startswith("structures.project."):
            wrong.append(f"{found.module}:{found.line} imports {found.imported}")
    assert wrong == []


def test_no_layer_imports_one_above_it():
    wrong = []
    for found in imports():
        if found.imported not in modules() or found.module.split(".")[0] != found.imported.split(".")[0]:
            continue
        lower, upper = layer_of(found.module), layer_of(found.imported)
        if lower is not None and upper is not None and upper > lower:
            wrong.append(f"{found.module}:{found.line} ({LAYERS[lower][0]}) imports {found.imported} ({LAYERS[upper][0]})")
    assert wrong == []


def test_nobody_imports_the_project():
    wrong = [f"{found.module}:{found.line}" for found in imports() if _leads_out_to_project(found)]
    assert wrong == []


def _leads_out_to_project(found) -> bool:
    return found.imported.startswith("structures.project") and not found.module.startswith("structures.project")


def test_no_circle_at_load_time():
    graph = {module: set() for module in modules()}
    for found in imports():
        if found.when == "load" and found.imported in graph and found.imported != found.module:
            graph[found.module].add(found.imported)
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as circle:
        pytest.fail(" -> ".join(circle.args[1]))


def test_an_import_inside_a_function_gives_its_reason():
    wrong = [
        f"{found.module}:{found.line} imports {found.imported} without a comment beside it"
        for found in imports()
        if found.when == "call" and "#" not in found.text
    ]
    assert wrong == []


def test_pure_modules_import_only_pure_ones_and_the_standard_library():
    wrong = [f"{found.module}:{found.line} imports {found.imported}" for found in imports() if is_pure(found.module) and _impure(found)]
    assert wrong == []


def _impure(found) -> bool:
    first = found.imported.split(".")[0]
    return not (is_pure(found.imported) or first in sys.stdlib_module_names or first in PURE_MAY_USE)


def test_pure_modules_ask_no_clock_no_file_and_no_environment():
    wrong = []
    for module, path in modules().items():
        if is_pure(module):
            wrong += [told(path, node.lineno, ast.unparse(node)) for node in ast.walk(ast.parse(path.read_text())) if _asks_outside(node)]
    assert wrong == []


def _asks_outside(node: ast.AST) -> bool:
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        return node.func.id in {"open", "input", "print"}
    if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
        return (node.value.id in {"datetime", "date", "time", "timezone"} and node.attr in CLOCKS) or ast.unparse(node) == "os.environ"
    return False


def test_no_file_is_too_long():
    long = [(path, len(path.read_text().splitlines())) for path in ours(".py", ".html", ".css", ".js")]
    assert [told(path, lines, "lines") for path, lines in long if lines > LONGEST_FILE] == []


def test_no_function_is_too_long():
    wrong = []
    for path in ours(".py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef)) and node.end_lineno - node.lineno + 1 > LONGEST_FUNCTION:
                wrong.append(told(path, node.lineno, f"{node.name} has {node.end_lineno - node.lineno + 1} lines"))
    assert wrong == []


def test_no_module_is_named_for_nothing():
    empty_names = {"utils", "util", "helpers", "helper", "misc", "common", "base", "tools"}
    assert [str(path.relative_to(ROOT)) for path in ours(".py") if path.stem in empty_names] == []


def test_what_pure_modules_offer_is_explained():
    wrong = []
    for module, path in modules().items():
        if is_pure(module):
            wrong += [told(path, node.lineno, node.name) for node in _offered(ast.parse(path.read_text())) if not ast.get_docstring(node)]
    assert wrong == []


def _offered(tree: ast.Module) -> list:
    kinds = (ast.FunctionDef, ast.ClassDef)
    return [node for node in tree.body if isinstance(node, kinds) and not node.name.startswith("_")]


@pytest.mark.django_db
def test_no_model_has_changed_without_its_migration(capsys):
    call_command("makemigrations", check=True, dry_run=True, verbosity=1)
    assert capsys.readouterr().out == "No changes detected\n"


def test_the_linter_finds_nothing_and_no_function_is_too_complex():
    ended = subprocess.run([sys.executable, "-m", "ruff", "check", "."], cwd=ROOT, capture_output=True, text=True)
    assert (ended.returncode, ended.stdout) == (0, "All checks passed!\n")


def test_types_of_pure_modules_are_right():
    pure = [str(path.relative_to(ROOT)) for module, path in modules().items() if is_pure(module)]
    ended = subprocess.run([sys.executable, "-m", "mypy", *pure], cwd=ROOT, capture_output=True, text=True)
    assert (ended.returncode, ended.stderr) == (0, ""), ended.stdout


# --- Words -----------------------------------------------------------------------------------------

# Split, so that this file does not hold what it forbids.
UNFINISHED = re.compile(r"\b(" + "|".join(("TO" + "DO", "FIX" + "ME", "XX" + "X", "NotImplemented" + "Error")) + r")\b")
# The product says what was seen and shipped, never that a structure will bear a load or that one choice is the better.
PROMISES = re.compile(
    r"\b(safe|safely|certified|approved|compliant|compliance|will hold|guaranteed|recommended|stronger|strongest)\b", re.I
)
TEMPLATE_CODE = re.compile(r"\{[%#].*?[%#]\}|\{\{.*?\}\}|<!--.*?-->", re.S)


def test_nothing_is_left_unfinished():
    wrong = []
    for path in [*ours(".py", ".html", ".css", ".js", ".toml"), ROOT / "README.md", ROOT / "DEVELOPERS.md"]:
        for number, line in enumerate(path.read_text().splitlines(), 1):
            if UNFINISHED.search(line):
                wrong.append(told(path, number, line.strip()))
    assert wrong == []


def test_no_text_promises_strength():
    wrong = []
    for path in ours(".html", ".js", ".toml", ".svg"):
        if "tests" not in path.relative_to(ROOT).parts:
            wrong += [told(path, 0, found) for found in PROMISES.findall(TEMPLATE_CODE.sub(" ", path.read_text()))]
    for path in python_files(*APPS):
        wrong += [told(path, line, text) for line, text in _texts(path) if PROMISES.search(text)]
    assert wrong == []


def _texts(path: Path) -> list[tuple[int, str]]:
    """The texts in a Python file that a person may come to read: all strings but docstrings."""
    tree = ast.parse(path.read_text())
    documented = (ast.Module, ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)
    docstrings = {ast.get_docstring(node, clean=False) for node in ast.walk(tree) if isinstance(node, documented)}
    return [
        (node.lineno, node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value not in docstrings
    ]
