"""A page is told everything, however slowly it takes it in."""

from collections.abc import Iterator

import pytest
from jupyter_client.blocking.client import BlockingKernelClient
from jupyter_client.manager import start_new_kernel

MANY = 10_000
FLOOD = f"""
from IPython.display import publish_display_data
for number in range({MANY}):
    publish_display_data({{"text/plain": str(number).ljust(2000)}})
"""


@pytest.fixture
def client(jupyter_env: dict[str, str]) -> Iterator[BlockingKernelClient]:
    """A client that has come to a kernel in which the kit was used before."""
    manager, first = start_new_kernel(env=jupyter_env)
    first.execute("import kit.ui", reply=True, timeout=120)
    first.stop_channels()
    client = manager.client()
    client.start_channels()
    client.wait_for_ready(timeout=120)
    yield client
    client.stop_channels()
    manager.shutdown_kernel(now=True)


def test_no_message_is_lost_on_a_page_that_is_slow(client: BlockingKernelClient) -> None:
    request = client.execute(FLOOD, store_history=False)
    client.get_shell_msg(timeout=120)  # the cell has run; nothing of what it published has been taken yet
    shown, state = [], ""
    while state != "idle":
        message = client.get_iopub_msg(timeout=60)
        if message["parent_header"].get("msg_id") == request:
            state = message["content"].get("execution_state", state)
            if message["msg_type"] == "display_data":
                shown.append(int(message["content"]["data"]["text/plain"]))
    assert shown == list(range(MANY))
