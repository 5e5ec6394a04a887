"""Candela profiles, photometric files, illuminance and gaps."""
