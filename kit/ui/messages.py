"""What the kernel tells its page: all of it, also where many controls are made at once."""

import sys


def lose_none() -> None:
    """Let the kernel keep what it publishes until the page has taken it, where there is a kernel.

    Its socket would drop what comes after the first thousand messages that wait: a page of panels is more, and a page
    that misses the end of a cell waits for it forever. A page that is opened later gets a connection of its own, so
    it is said again before each cell and each touch of a control.
    """
    if "ipykernel" not in sys.modules:
        return
    import zmq
    from IPython.core.getipython import get_ipython

    shell = get_ipython()
    thread = getattr(getattr(shell, "kernel", None), "iopub_thread", None)
    if shell is None or thread is None:
        return

    def keep() -> None:
        thread.schedule(lambda: thread.socket.setsockopt(zmq.SNDHWM, 0))  # in the thread that owns the socket

    shell.events.register("pre_execute", keep)
    keep()
