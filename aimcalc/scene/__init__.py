"""Reading what the user wrote: lengths, the scene model, loading, generic kinds."""
