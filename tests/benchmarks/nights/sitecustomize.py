"""Read by every Python that `change_nights` starts. Where only the wall clock is faked, faketime 0.9.10 answers EINVAL
to the sleep until an instant that Python asks for; this one waits for nothing to be readable instead.
"""

import select
import time


def sleep(seconds):
    select.select([], [], [], seconds)


time.sleep = sleep
