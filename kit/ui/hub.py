"""A class on a JupyterHub whose users are users of its system: what the hub's configuration asks of the kit.

Each user has a folder of his own. Its notebooks belong to root and are laid anew at every start, so nobody saves over
them. A pupil's folder is read by him and by the group of instructors, an instructor's by himself alone.
"""

from __future__ import annotations

import grp
import os
import pwd
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

from kit.core.errors import KitError
from kit.core.resources import notebooks_dir
from kit.ui.lab import page_options, write_settings

PUPIL, INSTRUCTOR = "class_hour.ipynb", "class_instructor.ipynb"
_OWN, _ROOMS = ".fitwright", "rooms"


def classroom(config: Any, folder: Path | str = "/srv/class", instructors: str = "instructors") -> None:
    """Let a hub serve the lessons, each user's in `folder`/rooms/NAME; to be called in its configuration.

    The hub runs as root. `instructors` is a group of the system: its members read what pupils write, and begin with
    the instructor's page.

    Raises:
        KitError: the hub does not run as root, or there is no such group.
    """
    if os.geteuid() != 0:
        raise KitError("the hub does not run as root; only root can start a server as another user of the system")
    try:
        group = grp.getgrnam(instructors)
    except KeyError:
        raise KitError(f"there is no group {instructors!r} on this system; make it: groupadd {instructors}") from None
    folder = Path(folder).resolve()
    own, rooms = folder / _OWN, folder / _ROOMS
    _folder(own, 0o755)
    _folder(rooms, 0o751, group=group.gr_gid)  # pupils pass through, and cannot list who is in the class
    write_settings(own)
    for path in own.rglob("*"):
        path.chmod(0o755 if path.is_dir() else 0o644)

    def prepare(spawner: Any) -> None:
        name = spawner.user.name
        teaches = _belongs(name, group)
        lay_out_room(rooms, name, None if teaches else group.gr_gid)
        spawner.default_url = f"/doc/tree/{INSTRUCTOR if teaches else PUPIL}"

    config.Spawner.cmd = [sys.executable, "-m", "jupyterhub.singleuser"]
    config.Spawner.args = page_options()
    config.Spawner.environment = {"JUPYTER_CONFIG_PATH": str(own)}
    config.Spawner.notebook_dir = f"{rooms}/{{username}}"
    config.Spawner.pre_spawn_hook = prepare


def lay_out_room(rooms: Path, name: str, readers: int | None) -> Path:
    """Make the folder of a user in `rooms`, with the notebooks in it, and return it.

    The group `readers` may read in it; without one it is an instructor's. A pupil has no instructor's page. Nothing is
    written through a link that the user has made there: a notebook is finished in a folder of root first.

    Raises:
        KitError: there is no such user.
    """
    try:
        user = pwd.getpwnam(name)
    except KeyError:
        raise KitError(f"there is no user {name!r} on this system; make one: useradd --create-home {name}") from None
    room = rooms / name
    _folder(room, 0o700 if readers is None else 0o2750, user.pw_uid, user.pw_gid if readers is None else readers)
    with tempfile.TemporaryDirectory(dir=rooms.parent / _OWN) as making:
        for source in sorted(notebooks_dir().glob("*.ipynb")):
            if readers is None or source.name != INSTRUCTOR:
                ready = Path(making, source.name)
                shutil.copyfile(source, ready)
                ready.chmod(0o444)
                ready.replace(room / source.name)
    return room


def _folder(path: Path, mode: int, user: int = 0, group: int = 0) -> None:
    path.mkdir(parents=True, exist_ok=True)
    os.chown(path, user, group)
    path.chmod(mode)  # after the owner: another owner takes the bit away by which files inherit the group


def _belongs(name: str, group: grp.struct_group) -> bool:
    """Whether a user is in a group, as his main one or as another."""
    return name in group.gr_mem or any(user.pw_name == name and user.pw_gid == group.gr_gid for user in pwd.getpwall())
