"""Whether a picture file says where it was taken: the GPS fields of its Exif or XMP data.

Exif (CIPA DC-008, tag 34853 GPSInfo) in JPEG (segment APP1), PNG (chunk eXIf) and WebP (chunk EXIF).
"""

from __future__ import annotations

import struct

LOOKED_AT = 1024 * 1024
"""Bytes at the start of a file that are looked at; the data stands before the picture, or close behind a small one."""
_GPS_POINTER = 0x8825
_LATITUDE = 0x0002
_MOST_FIELDS = 500


def has_position(content: bytes) -> bool:
    """Whether the start of a picture file holds a latitude. Never raises for any bytes."""
    if b"GPSLatitude" in content:  # XMP writes it in words
        return True
    at = content.find(b"Exif\0\0")
    if at >= 0 and _in_tiff(content[at + 6 :]):
        return True
    for name, skip in ((b"eXIf", 4), (b"EXIF", 8)):
        at = content.find(name)
        if at >= 0 and _in_tiff(content[at + skip :]):
            return True
    return False


def _in_tiff(data: bytes) -> bool:
    order = {b"II*\0": "<", b"MM\0*": ">"}.get(data[:4])
    if order is None:
        return False
    fields = _fields(data, order, 4)
    pointer = fields.get(_GPS_POINTER)
    return pointer is not None and _LATITUDE in _fields(data, order, pointer)


def _fields(data: bytes, order: str, pointer: int) -> dict[int, int]:
    """Tags of the directory that ``pointer`` leads to, with where each field's own value stands."""
    try:
        if pointer == 4:
            (start,) = struct.unpack_from(order + "I", data, 4)
        else:
            (start,) = struct.unpack_from(order + "I", data, pointer)
        (count,) = struct.unpack_from(order + "H", data, start)
        found = {}
        for number in range(min(count, _MOST_FIELDS)):
            at = start + 2 + 12 * number
            (tag,) = struct.unpack_from(order + "H", data, at)
            found[tag] = at + 8
        return found
    except struct.error:
        return {}
