"""Drawings as geometry: DXF, IFC and the paths of PDF pages, read without looking at pixels."""
