"""Scripts that let a shell complete the command: its words, options, models and tables."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

SHELLS = ("bash", "zsh", "fish")

_BASH = """\
_fitwright() {{
    local now=${{COMP_WORDS[COMP_CWORD]}} words="" options=""
    if [ "$COMP_CWORD" -eq 1 ]; then
        words="{commands}"
    else
        case "${{COMP_WORDS[1]}}" in
{cases}
        esac
    fi
    case "$now" in -*) words=$options ;; esac
    COMPREPLY=($(compgen -W "$words" -- "$now"))
}}
complete -o default -F _fitwright fitwright
"""


class Offered(NamedTuple):
    """What may follow a command, besides names of files: words, and options with their dashes."""

    words: tuple[str, ...]
    options: tuple[str, ...]


def script(shell: str, offered: Mapping[str, Offered]) -> str:
    """Return the script for `shell`; `offered` is what may follow each command."""
    if shell == "fish":
        lines = [f"complete -c fitwright -n __fish_use_subcommand -a '{' '.join(offered)}'"]
        for command, (words, options) in offered.items():
            after = f"complete -c fitwright -n '__fish_seen_subcommand_from {command}'"
            lines += [f"{after} -a '{' '.join(words)}'"] if words else []
            lines += [f"{after} -l {option.removeprefix('--')}" for option in options]
        return "\n".join(lines) + "\n"
    cases = "\n".join(
        f'            {command}) words="{" ".join(words)}" options="{" ".join(options)}" ;;'
        for command, (words, options) in offered.items()
    )
    bash = _BASH.format(commands=" ".join(offered), cases=cases)
    return f"autoload -U +X bashcompinit && bashcompinit\n{bash}" if shell == "zsh" else bash
