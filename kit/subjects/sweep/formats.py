"""The files that a scan may come in."""

SCANS = (".ply", ".stl", ".obj", ".3mf", ".glb")
