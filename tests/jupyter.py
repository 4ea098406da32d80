"""An environment for processes of Jupyter."""

import os
from pathlib import Path

import kit

PRIVATE = {
    "IPYTHONDIR": "ipython",
    "JUPYTER_CONFIG_DIR": "config",
    "JUPYTER_DATA_DIR": "data",
    "JUPYTER_RUNTIME_DIR": "runtime",
    "JUPYTERLAB_SETTINGS_DIR": "settings",
    "JUPYTERLAB_WORKSPACES_DIR": "workspaces",
}


def private_environment(home: Path) -> dict[str, str]:
    """Return the variables of a Jupyter process that reads and writes nothing of the user's own set-up.

    Its folders are in `home`. The kernels import the same `kit` as the tests do, whether or not another is installed.
    """
    env = {name: value for name, value in os.environ.items() if not name.startswith(("JUPYTER", "PYTEST"))}
    for name, folder in PRIVATE.items():
        (home / folder).mkdir()
        env[name] = str(home / folder)
    env["PYTHONPATH"] = str(Path(kit.__file__).resolve().parent.parent)
    return env
