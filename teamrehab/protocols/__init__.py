"""Protocol files and the injury catalogue, read and checked."""

from teamrehab.protocols.at_hand import protocols_at_hand, protocols_for
from teamrehab.protocols.catalogue import body_areas, injury_catalogue
from teamrehab.protocols.errors import ProtocolError
from teamrehab.protocols.files import read_text
from teamrehab.protocols.reading import check_file, check_text, read_file, read_protocol
from teamrehab.protocols.shipped import load_protocols

__all__ = [
    "ProtocolError",
    "body_areas",
    "check_file",
    "check_text",
    "injury_catalogue",
    "load_protocols",
    "protocols_at_hand",
    "protocols_for",
    "read_file",
    "read_protocol",
    "read_text",
]
