"""A scene solved: aims, findings, hang and cable arithmetic."""
