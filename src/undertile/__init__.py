"""undertile: from one survey of a gutted shower to the proved plan for every stud."""

__version__ = "0.1.0"
