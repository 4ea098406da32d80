"""Scripts that let a shell complete the command: its words, options, models and tables."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

SHELLS = ("bash", "zsh", "fish")

_BASH = """\
_fitwright() {{
    local now=${{COMP_WORDS[COMP_CWORD]}} words=""
    if [ "$COMP_CWORD" -eq 1 ]; then
        words="{commands}"
    else
        case "${{COMP_WORDS[1]}}" in
{cases}
        esac
    fi
    COMPREPLY=($(compgen -W "$words" -- "$now"))
}}
complete -o default -F _fitwright fitwright
"""


def script(shell: str, offered: Mapping[str, Sequence[str]]) -> str:
    """Return the script for `shell`; `offered` are the words that may follow each command, besides names of files."""
    if shell == "fish":
        first = f"complete -c fitwright -n __fish_use_subcommand -a '{' '.join(offered)}'"
        rest = [
            f"complete -c fitwright -n '__fish_seen_subcommand_from {command}' -a '{' '.join(words)}'"
            for command, words in offered.items()
            if words
        ]
        return "\n".join([first, *rest]) + "\n"
    cases = "\n".join(f'            {command}) words="{" ".join(words)}" ;;' for command, words in offered.items())
    bash = _BASH.format(commands=" ".join(offered), cases=cases)
    return f"autoload -U +X bashcompinit && bashcompinit\n{bash}" if shell == "zsh" else bash
