"""The light of a solved rig: each system over the acting area, its holes, who can fill them, which lens."""
