"""The dietitian's pages."""
