#!/usr/bin/env python3
"""Set Cordwright up on a fresh machine, and run it or its checks.

    python3 start.py             open the workbench in your browser
    python3 start.py demo        work the demo piece and show its cut list
    python3 start.py run ARGS    any other command: python3 start.py run cut my-plan.yaml
    python3 start.py test        every check: style, types, import directions, tests
    python3 start.py lock        write requirements/*.txt anew from requirements/*.in

Wants Python 3.11 or newer with pip, and nothing else. Everything is installed into the
directory .venv beside this file, or the one that CORDWRIGHT_VENV names, from the hashed lock in
requirements/; pip's own settings say where from, and npm's for the page of the workbench, which is
built then. Nothing is installed again until the lock or the page's sources change. This file uses
the standard library only, and syntax that an old Python can read, so that it can say what is
missing.
"""

import hashlib
import importlib.util
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

OLDEST_PYTHON = (3, 11)
PIP_WITH_PYTHON_OPTION = (22, 3)  # the first pip that can install into another environment
ROOT = Path(__file__).resolve().parent
RUN_LOCK = ROOT / "requirements" / "run.txt"
DEV_LOCK = ROOT / "requirements" / "dev.txt"
PIP_COMPILE = [
    "--generate-hashes", "--strip-extras", "--allow-unsafe", "--no-header", "--newline=lf",
    "--no-emit-index-url", "--no-emit-trusted-host", "--no-emit-find-links", "--no-emit-options",
    "--pip-args=--only-binary :all:", "--quiet",
]  # fmt: skip


class CannotStartError(Exception):
    """Set-up cannot go on; the message says why and what to do."""


def main(arguments: "list[str]") -> int:
    """Do what the command line asks for; the exit status is that of the last program run."""
    command, rest = (arguments[0], arguments[1:]) if arguments else ("run", [])
    if command not in ("demo", "run", "test", "lock"):
        say((__doc__ or "").strip())
        return 0 if command in ("help", "-h", "--help") else 2
    try:
        if sys.version_info < OLDEST_PYTHON:
            raise CannotStartError(too_old())
        if command == "lock":
            return renew_lock()
        python = prepare(environment(), dev=command == "test")
        if command == "test":
            return check(python, rest)
        return call([python, "-m", "cordwright", *(["demo"] if command == "demo" else []), *rest])
    except CannotStartError as problem:
        say(f"start.py: {problem}")
        return 1
    except KeyboardInterrupt:
        return 130


def say(text: str) -> None:
    """Tell the person at the terminal, apart from what the program itself prints."""
    sys.stderr.write(text + "\n")
    sys.stderr.flush()


def too_old() -> str:
    """What to do about a Python that is too old."""
    wanted = ".".join(map(str, OLDEST_PYTHON))
    found = ".".join(map(str, sys.version_info[:3]))
    return (
        f"Cordwright wants Python {wanted} or newer; this is {found} ({sys.executable}).\n"
        f"Install a newer one and start again with it, as in: python{wanted} start.py demo"
    )


def environment() -> Path:
    """The directory of the virtual environment."""
    named = os.environ.get("CORDWRIGHT_VENV")
    return Path(named).expanduser().absolute() if named else ROOT / ".venv"


def prepare(venv: Path, dev: bool) -> str:
    """Make the environment and install what the lock names, where that is not done yet.

    Returns the path of the environment's Python.
    """
    python = venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    if not python.exists():
        make_environment(venv)
    works = subprocess.run([str(python), "-c", ""], capture_output=True, check=False)
    if works.returncode != 0:
        raise CannotStartError(f"the environment in {venv} does not work; delete it and try again.")
    locks = [RUN_LOCK, DEV_LOCK] if dev else [RUN_LOCK]
    stamp = venv / ("cordwright-dev.stamp" if dev else "cordwright-run.stamp")
    wanted = fingerprint([*locks, ROOT / "pyproject.toml", *page_sources()])
    if stamp.exists() and stamp.read_text(encoding="utf-8") == wanted:
        return str(python)
    say(f"Installing into {venv} (once; this takes a minute or two) ...")
    pip = pip_for(python)
    required = [part for lock in locks for part in ("-r", str(lock))]
    install(pip, ["--require-hashes", *required])
    install(pip, ["--no-build-isolation", "--no-deps", "-e", str(ROOT)])
    stamp.write_text(wanted, encoding="utf-8")
    return str(python)


def page_sources() -> "list[Path]":
    """What the workbench's page is built from on installation."""
    names = (ROOT / "frontend").rglob("*")
    own = (p for p in names if "node_modules" not in p.relative_to(ROOT).parts and p.is_file())
    return [ROOT / "hatch_build.py", *sorted(own)]


def fingerprint(files: "list[Path]") -> str:
    """A hash of the files' bytes and of where this checkout is."""
    digest = hashlib.sha256(str(ROOT).encode())
    for file in files:
        digest.update(file.read_bytes())
    return digest.hexdigest()


def make_environment(venv: Path) -> None:
    """Make an empty environment, with pip inside where this Python can do that."""
    say(f"Making an environment in {venv} ...")
    if importlib.util.find_spec("venv") is None:
        raise CannotStartError(
            "this Python comes without its venv module. Install it with the system's packages\n"
            "(on Debian and Ubuntu: python3-venv), or use a Python from python.org."
        )
    with_pip = importlib.util.find_spec("ensurepip") is not None
    without = [] if with_pip else ["--without-pip"]
    made = subprocess.run([sys.executable, "-m", "venv", *without, str(venv)], check=False)
    if made.returncode != 0:
        raise CannotStartError(
            f"no environment could be made in {venv}. Is the directory writable? Otherwise name\n"
            "another one in CORDWRIGHT_VENV."
        )


def pip_for(python: Path) -> "list[str]":
    """The command that installs into the environment: its own pip, or else this Python's."""
    inside = [str(python), "-m", "pip"]
    if subprocess.run([*inside, "--version"], capture_output=True, check=False).returncode == 0:
        return inside
    outside = [sys.executable, "-m", "pip"]
    found = subprocess.run([*outside, "--version"], capture_output=True, text=True, check=False)
    version = re.match(r"pip (\d+)\.(\d+)", found.stdout)
    if version and tuple(map(int, version.groups())) >= PIP_WITH_PYTHON_OPTION:
        return [*outside, "--python", str(python)]
    raise CannotStartError(
        "no pip was found that can fill the environment. Install pip, or the system's package for\n"
        "environments (on Debian and Ubuntu: python3-pip or python3-venv), delete "
        f"{python.parent.parent}\nand try again."
    )


def install(pip: "list[str]", what: "list[str]") -> None:
    """Run pip install; pip's own settings decide where from."""
    options = ["--quiet", "--disable-pip-version-check", "--no-input"]
    if call([*pip, "install", *options, *what]) != 0:
        raise CannotStartError(
            "pip could not install what the lock names; its message stands above. Without a way\n"
            "to a package index, set one in pip's configuration and try again."
        )


def call(command: "list[str]") -> int:
    """Run a program with this terminal and give its exit status."""
    return subprocess.run(command, check=False).returncode


def check(python: str, pytest_arguments: "list[str]") -> int:
    """Run every check, also when an earlier one fails; 0 if all pass, else pytest's status or 1."""
    os.chdir(ROOT)
    # Many threads for small matrices slow the solver down, and two test processes share the cores.
    for variable in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
        os.environ.setdefault(variable, "1")
    scripts = Path(python).parent
    failed = []
    for name, command in (
        ("ruff check", [python, "-m", "ruff", "check", "."]),
        ("ruff format", [python, "-m", "ruff", "format", "--check", "."]),
        ("mypy", [python, "-m", "mypy"]),
        ("lint-imports", [str(scripts / "lint-imports")]),
    ):
        say(f"-- {name}")
        if call(command) != 0:
            failed.append(name)
    say("-- pytest")
    status = call([python, "-m", "pytest", "-n", "2", *pytest_arguments])
    if failed:
        say("failed: " + ", ".join(failed + (["pytest"] if status else [])))
    return status or int(bool(failed))


def renew_lock() -> int:
    """Write requirements/*.txt anew: the newest versions that agree, and all files' hashes."""
    with tempfile.TemporaryDirectory() as directory:
        venv = Path(directory) / "venv"
        make_environment(venv)
        python = venv / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
        install(pip_for(python), ["pip-tools"])
        for lock in (RUN_LOCK, DEV_LOCK):
            source = lock.with_suffix(".in").name
            command = [str(python), "-m", "piptools", "compile", "--upgrade", *PIP_COMPILE]
            done = subprocess.run(
                [*command, f"--output-file={lock.name}", source], cwd=lock.parent, check=False
            )
            if done.returncode != 0:
                return done.returncode
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
