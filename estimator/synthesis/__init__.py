"""Invented plans drawn as pictures in many styles, each with its exact truth beside it."""
