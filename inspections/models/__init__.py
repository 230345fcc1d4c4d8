"""The tables of the third app, one file for each noun."""

from inspections.models.requests import FaultRequest, RequestStep
from inspections.models.visits import Observation, Photo, Visit, WalkRule
from inspections.models.weather import Storm

__all__ = ["FaultRequest", "Observation", "Photo", "RequestStep", "Storm", "Visit", "WalkRule"]
