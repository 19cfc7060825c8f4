"""Trains the reading network from plans drawn by ``synthesis``; needs the extra ``train``."""
