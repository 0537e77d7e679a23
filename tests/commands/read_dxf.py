"""Prints what a reader of its own (ezdxf) finds in a DXF file, as one JSON object."""

import json
import sys

import ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode


def described(entity):
    dxf = entity.dxf
    found = {"type": entity.dxftype(), "layer": decode_dxf_unicode(dxf.layer)}
    if entity.dxftype() == "POINT":
        found["points"] = [list(dxf.location)[:2]]
    elif entity.dxftype() == "TEXT":
        text = decode_dxf_unicode(dxf.text)
        found |= {"text": text.encode("utf-8", "replace").decode(), "ascii": ascii(text), "points": [list(dxf.insert)[:2]], "height": dxf.height}
    elif entity.dxftype() == "LINE":
        found["points"] = [list(dxf.start)[:2], list(dxf.end)[:2]]
    elif entity.dxftype() == "LWPOLYLINE":
        found |= {"closed": entity.closed, "points": [list(p) for p in entity.get_points("xy")]}
    return found


def main():
    drawing = ezdxf.readfile(sys.argv[1])
    header = drawing.header
    print(json.dumps({
        "version": drawing.dxfversion,
        "unit": header["$INSUNITS"],
        "shown_as": header["$LUNITS"],
        "least": list(header["$EXTMIN"])[:2],
        "most": list(header["$EXTMAX"])[:2],
        # This reader checks names before it has decoded the characters that are not ASCII.
        "errors": [e.message for e in drawing.audit().errors if "\\U+" not in e.message],
        "layers": {decode_dxf_unicode(layer.dxf.name): layer.dxf.linetype for layer in drawing.layers},
        "entities": [described(entity) for entity in drawing.modelspace()],
    }))


if __name__ == "__main__":
    main()
