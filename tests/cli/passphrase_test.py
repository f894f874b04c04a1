"""A passphrase typed at a terminal: its echo is off meanwhile, and on again after Ctrl-C.

    passphrase_test.py PROGRAM
"""

import os
import pathlib
import pty
import select
import signal
import sys
import tempfile
import termios
import time


def echoes(terminal):
    return bool(termios.tcgetattr(terminal)[3] & termios.ECHO)


def until(condition, seconds=20.0):
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        if condition():
            return True
        time.sleep(0.02)
    return False


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    wrong = []
    with tempfile.TemporaryDirectory() as folder:
        pathlib.Path(folder, "class").mkdir()
        pathlib.Path(folder, "class/a.record").write_text("", encoding="utf-8")
        pathlib.Path(folder, "course.key").write_text("{}", encoding="utf-8")
        child, terminal = pty.fork()
        if child == 0:
            os.chdir(folder)
            os.execve(program, [program, "course", "grade", "class"], {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8"})
        shown = b""

        def is_asked():
            nonlocal shown
            if select.select([terminal], [], [], 0)[0]:
                shown += os.read(terminal, 1024)
            return b"Passphrase" in shown and not echoes(terminal)

        if not until(is_asked):
            wrong.append(f"no passphrase is asked for without echo: {shown!r}")
        os.write(terminal, b"four")
        ended = 0, 0
        pressed = 0.0

        # A Ctrl-C between the prompt and the read behind it, which only a program is quick enough for, is noted by the
        # library, and the read goes on: it is pressed until it is heard.
        def is_over():
            nonlocal ended, pressed
            ended = os.waitpid(child, os.WNOHANG)
            if ended[0] != child and time.monotonic() - pressed > 0.5:
                os.write(terminal, b"\x03")
                pressed = time.monotonic()
            return ended[0] == child

        # The terminal is looked at as the program leaves it: our own end keeps it open.
        if not until(is_over):
            wrong.append("Ctrl-C does not end it")
            os.kill(child, signal.SIGKILL)
        elif not os.WIFSIGNALED(ended[1]) or os.WTERMSIG(ended[1]) != signal.SIGINT:
            wrong.append(f"Ctrl-C ends it with status {ended[1]}, not by its signal")
        if not echoes(terminal):
            wrong.append("the terminal is left without echo")
    print("\n".join(wrong) or "asked without echo, echo again after Ctrl-C")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
