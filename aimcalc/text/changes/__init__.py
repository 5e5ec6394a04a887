"""What has changed, in words and JSON: two scenes, or a scene and an earlier print."""
