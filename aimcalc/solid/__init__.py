"""A rig made solid: scenery, tubes and units' bodies, what they take of the light, what touches what."""
