"""Work beside the kernel's other work."""

import asyncio
from threading import Event, current_thread, main_thread

from kit.ui.idle import aside


def test_without_a_loop_work_is_done_at_once() -> None:
    found: list[int] = []
    aside(lambda: 7, found.append)
    assert found == [7]


def test_in_a_loop_work_is_done_in_a_thread_and_told_in_the_loop() -> None:
    async def asked() -> tuple[bool, bool]:
        told = asyncio.get_running_loop().create_future()
        aside(
            lambda: current_thread() is main_thread(),
            lambda at_work: told.set_result((at_work, current_thread() is main_thread())),
        )
        return await asyncio.wait_for(told, 60)

    assert asyncio.run(asked()) == (False, True)


def test_work_that_ends_after_its_loop_is_told_to_nobody() -> None:
    go, done = Event(), Event()
    found: list[int] = []

    def work() -> int:
        go.wait(60)
        done.set()
        return 7

    async def left() -> None:
        aside(work, found.append)

    asyncio.run(left())
    go.set()
    assert done.wait(60)
    assert not found  # an exception of the thread would be an error of this test
