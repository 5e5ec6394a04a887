"""Where units hang, as a list says it."""
