"""What holds for every test: one thread for linear algebra, examples that repeat themselves."""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # before numpy is imported anywhere
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # tests never show a window

from hypothesis import settings

settings.register_profile("ci", derandomize=True, deadline=None)
settings.register_profile("wide", max_examples=2000, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci"))
