"""Make the project's virtual environment: locked packages with hashes, then this package, editable.

    python tools/environment.py            # .venv beside this file's folder; quick when nothing has changed

Needs Python 3.11 or newer and nothing else; uses uv when it is on PATH, pip when not. Safe to start twice at once.
"""
import contextlib
import hashlib
import os
from pathlib import Path
import shutil
import subprocess
import sys
import time

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / os.environ.get("VENV", ".venv")
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
STAMP, LOCKED = VENV / ".ready", ROOT / "requirements.lock"
OLDEST = (3, 11)


def wanted():
    """What the environment must have been made from: place, Python, locked packages, settings of this package."""
    mark = hashlib.sha256(f"{VENV} {sys.version}".encode())
    for path in (LOCKED, ROOT / "pyproject.toml"):
        mark.update(path.read_bytes())
    return mark.hexdigest()


def is_ready(mark):
    return PYTHON.exists() and STAMP.exists() and STAMP.read_text(encoding="ascii") == mark


@contextlib.contextmanager
def alone():
    """One set-up at a time; a second one waits for the first."""
    with open(ROOT / ".setup.lock", "a+") as f:
        for _ in range(3600):
            try:
                if os.name == "nt":
                    import msvcrt
                    msvcrt.locking(f.fileno(), msvcrt.LK_NBLCK, 1)
                else:
                    import fcntl
                    fcntl.flock(f, fcntl.LOCK_EX | fcntl.LOCK_NB)
                break
            except OSError:
                time.sleep(0.5)
        else:
            sys.exit("another set-up of this folder has been running for half an hour; end it, then try again")
        yield


def run(*command):
    print("+", *(str(c) for c in command), flush=True)
    if subprocess.run(command, cwd=ROOT, stdin=subprocess.DEVNULL).returncode:
        sys.exit("setting up the environment failed at the command above; its own message says why")


def same_python():
    """Is there an environment already, of the Python that runs this?"""
    ask = "import sys; print(sys.version)"
    try:
        said = subprocess.run([PYTHON, "-c", ask], capture_output=True, text=True, stdin=subprocess.DEVNULL)
    except OSError:
        return False
    return said.returncode == 0 and said.stdout.strip() == sys.version


def make_with_uv(uv):
    if not same_python():
        run(uv, "venv", "--quiet", "--clear", "--python", sys.executable, VENV)
    install = (uv, "pip", "install", "--quiet", "--python", PYTHON)
    run(*install, "--require-hashes", "-r", LOCKED)
    run(*install, "--no-deps", "--no-build-isolation", "-e", ROOT)


def bring_venv():
    """Debian keeps what makes environments in a package of its own."""
    if not (hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get")):
        sys.exit("this Python cannot make virtual environments; on Debian or Ubuntu: apt-get install python3-venv")
    run("apt-get", "-qq", "update")
    run("apt-get", "-qq", "-y", "install", "--no-install-recommends", "python3-venv")


def make_with_pip():
    if not same_python():
        try:
            import ensurepip  # noqa: F401
        except ImportError:
            bring_venv()
        run(sys.executable, "-m", "venv", "--clear", VENV)
    elif subprocess.run([PYTHON, "-m", "pip", "--version"], capture_output=True).returncode:
        run(PYTHON, "-m", "ensurepip", "--upgrade")
    install = (PYTHON, "-m", "pip", "install", "--quiet", "--disable-pip-version-check")
    run(*install, "--require-hashes", "-r", LOCKED)
    run(*install, "--no-deps", "--no-build-isolation", "-e", ROOT)


def main():
    if sys.version_info < OLDEST:
        have = ".".join(map(str, sys.version_info[:2]))
        sys.exit(f"curtilage needs Python 3.11 or newer; this is {have}. With another Python: make PYTHON=python3.12 ...")
    mark = wanted()
    if is_ready(mark):
        return
    with alone():
        if is_ready(mark):
            return
        print(f"setting up {VENV} (about a minute with pip, a few seconds with uv)", flush=True)
        uv = shutil.which("uv")
        make_with_uv(uv) if uv else make_with_pip()
        STAMP.write_text(mark, encoding="ascii")


if __name__ == "__main__":
    main()
