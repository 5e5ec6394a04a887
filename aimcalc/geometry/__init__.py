"""Mounts, aiming, cones on planes, solids: arrays in, arrays out; no scene, no files."""
