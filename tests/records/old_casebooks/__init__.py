"""Filled casebooks as released versions wrote them; each must open for ever."""
