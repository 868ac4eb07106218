"""Protocol files and the injury catalogue, read and checked."""

from teamrehab.protocols.catalogue import body_areas, injury_catalogue
from teamrehab.protocols.errors import ProtocolError
from teamrehab.protocols.reading import check_file, read_file, read_protocol
from teamrehab.protocols.shipped import load_protocols, protocols_followed

__all__ = [
    "ProtocolError",
    "body_areas",
    "check_file",
    "injury_catalogue",
    "load_protocols",
    "protocols_followed",
    "read_file",
    "read_protocol",
]
