"""Reads the files named on standard input with pydicom and prints one line of JSON for each: what every element says.

{"file": NAME, "elements": [[PATH, VR, [VALUE, ...]], ...]} or {"file": NAME, "error": WORDS}
PATH is (gggg,eeee), inside items (gggg,eeee)[1].(gggg,eeee). Bytes are told as their number and their SHA-256.
"""

import hashlib
import json
import sys
import warnings

import pydicom
from pydicom import config
from pydicom.encaps import generate_pixel_data_fragment, get_frame_offsets
from pydicom.filebase import DicomBytesIO
from pydicom.multival import MultiValue

warnings.simplefilter("ignore")
config.settings.reading_validation_mode = config.IGNORE
config.replace_un_with_known_vr = False

BINARY = {"OB", "OD", "OF", "OL", "OV", "OW", "UN"}


def told(data):
    return "%d bytes %s" % (len(data), hashlib.sha256(data).hexdigest())


def fragments(data):
    stream = DicomBytesIO(data)
    stream.is_little_endian = True
    _, offsets = get_frame_offsets(stream)
    table = int.from_bytes(data[4:8], "little") // 4
    yield "offsets " + " ".join(str(offset) for offset in (offsets if table else []))
    stream.seek(0)
    first = True
    stream.seek(8 + 4 * table)
    for fragment in generate_pixel_data_fragment(stream):
        yield told(fragment)


def values(element):
    value = element.value
    if value is None or value == "":
        return []
    if isinstance(value, bytes):
        return [told(value)]
    many = value if isinstance(value, (MultiValue, list, tuple)) else [value]
    return ["" if one is None else repr(float(one)) if isinstance(one, float) else str(one) for one in many]


def elements(dataset, path, encapsulated):
    for element in dataset:
        here = path + "(%04X,%04X)" % (element.tag.group, element.tag.elem)
        if element.VR == "SQ":
            yield [here, "SQ", [str(len(element.value))]]
            for number, item in enumerate(element.value, 1):
                yield from elements(item, "%s[%d]." % (here, number), encapsulated)
        elif element.tag == 0x7FE00010 and encapsulated and element.is_undefined_length:
            yield [here, element.VR, list(fragments(element.value))]
        elif element.VR == "AT":
            many = element.value if isinstance(element.value, (MultiValue, list)) else [element.value]
            yield [here, "AT", [str(int(one)) for one in many if one is not None and one != ""]]
        elif element.VR in BINARY:
            yield [here, element.VR, [told(element.value)] if element.value else []]
        else:
            yield [here, element.VR, values(element)]


def read(name):
    try:
        dataset = pydicom.dcmread(name, force=True)
        syntax = dataset.file_meta.get("TransferSyntaxUID")
        encapsulated = bool(syntax) and syntax.is_compressed
        return {"file": name, "elements": [*elements(dataset.file_meta, "", False), *elements(dataset, "", encapsulated)]}
    except Exception as problem:  # whatever it is, it is this reader's answer
        return {"file": name, "error": "%s: %s" % (type(problem).__name__, problem)}


for line in sys.stdin:
    print(json.dumps(read(line.rstrip("\n"))))
