"""What the kernel tells its page: all of it, also where many controls are made at once."""

import sys


def lose_none() -> None:
    """Let the kernel keep what it publishes until the page has taken it, where there is a kernel.

    Its socket would drop what comes after the first thousand messages that wait: a page of panels is more, and a page
    that misses the end of a cell waits for it forever.
    """
    if "ipykernel" not in sys.modules:
        return
    import zmq
    from IPython.core.getipython import get_ipython

    thread = getattr(getattr(get_ipython(), "kernel", None), "iopub_thread", None)
    if thread is not None:
        thread.schedule(lambda: thread.socket.setsockopt(zmq.SNDHWM, 0))  # in the thread that owns the socket
