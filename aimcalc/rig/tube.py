"""The tube that pipes, booms, side arms and stands are taken to be made of; scenes do not say."""

TUBE_RADIUS = 0.0483 / 2  # m; NPS 1-1/2, 1.900 in outside diameter (ASME B36.10M)
