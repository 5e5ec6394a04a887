"""The live page for whoever draws the plot, and the page that the crew carries on a phone."""
