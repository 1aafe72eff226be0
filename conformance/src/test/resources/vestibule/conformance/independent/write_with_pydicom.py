"""Writes VL Photographic Images from scratch with pydicom and Pillow, by the module tables of PS3.3 A.32.4: one argument, a folder."""
import io
import sys
from pathlib import Path

from PIL import Image
from pydicom.dataset import Dataset, FileDataset, FileMetaDataset
from pydicom.encaps import encapsulate
from pydicom.sequence import Sequence
from pydicom.uid import ExplicitVRLittleEndian, ImplicitVRLittleEndian, JPEGBaseline8Bit

FOLDER = Path(sys.argv[1])
SIDE = 48


def picture(number, mode):
    image = Image.new("RGB", (SIDE, SIDE))
    image.putdata([((x * 5) % 256, (y * number) % 256, (x * y) % 256) for y in range(SIDE) for x in range(SIDE)])
    return image.convert(mode)


def jpeg(number, mode, subsampling):
    stream = io.BytesIO()
    options = {} if mode == "L" else {"subsampling": subsampling}
    picture(number, mode).save(stream, "JPEG", quality=90, **options)
    return stream.getvalue()


def code(value, meaning):
    item = Dataset()
    item.CodeValue = value
    item.CodingSchemeDesignator = "SCT"
    item.CodeMeaning = meaning
    return item


def header(number, name, charset):
    data = Dataset()
    data.SpecificCharacterSet = charset
    data.ImageType = ["ORIGINAL", "PRIMARY"]
    data.SOPClassUID = "1.2.840.10008.5.1.4.1.1.77.1.4"
    data.SOPInstanceUID = f"2.25.4400{number}"
    data.StudyDate = "20260302"
    data.StudyTime = "0930"
    data.ContentDate = "20260302"
    data.ContentTime = "093112.25"
    data.AcquisitionDateTime = "20260302093112.25"
    data.AccessionNumber = ""
    data.Modality = "XC"
    data.Manufacturer = "Invented Cameras"
    data.ReferringPhysicianName = ""
    data.PatientName = name
    data.PatientID = f"PY-{number}"
    data.PatientBirthDate = ""
    data.PatientSex = "O"
    data.StudyInstanceUID = f"2.25.5500{number}"
    data.SeriesInstanceUID = f"2.25.6600{number}"
    data.StudyID = ""
    data.SeriesNumber = None
    data.InstanceNumber = 1
    data.PatientOrientation = ["L", "F"]
    data.ImageLaterality = "U"
    data.BurnedInAnnotation = "NO"
    data.RecognizableVisualFeatures = "YES"
    data.AcquisitionContextSequence = Sequence([])
    data.AnatomicRegionSequence = Sequence([code("89545001", "Face")])
    return data


def pixels(data, mode):
    data.SamplesPerPixel = 1 if mode == "L" else 3
    data.Rows = SIDE
    data.Columns = SIDE
    data.BitsAllocated = 8
    data.BitsStored = 8
    data.HighBit = 7
    data.PixelRepresentation = 0
    if mode != "L":
        data.PlanarConfiguration = 0


def write(data, syntax, name):
    meta = FileMetaDataset()
    meta.MediaStorageSOPClassUID = data.SOPClassUID
    meta.MediaStorageSOPInstanceUID = data.SOPInstanceUID
    meta.TransferSyntaxUID = syntax
    file = FileDataset(str(FOLDER / name), data, file_meta=meta, preamble=b"\0" * 128)
    file.is_little_endian = True
    file.is_implicit_VR = syntax == ImplicitVRLittleEndian
    file.save_as(str(FOLDER / name), write_like_original=False)


def compressed(number, name, charset, mode, subsampling, fragments=1, offsets=True, open_ended=False):
    data = header(number, name, charset)
    stream = jpeg(number, mode, subsampling)
    pixels(data, mode)
    data.PhotometricInterpretation = "MONOCHROME2" if mode == "L" else "YBR_FULL_422"
    data.LossyImageCompression = "01"
    data.LossyImageCompressionMethod = "ISO_10918_1"
    data.LossyImageCompressionRatio = round(SIDE * SIDE * data.SamplesPerPixel / len(stream), 2)
    data.PixelData = encapsulate([stream], fragments_per_frame=fragments, has_bot=offsets)
    data["PixelData"].is_undefined_length = True
    data["AnatomicRegionSequence"].is_undefined_length = open_ended
    data.AnatomicRegionSequence[0].is_undefined_length_sequence_item = open_ended
    write(data, JPEGBaseline8Bit, f"jpeg-{number}.dcm")


def native(number, syntax, mode):
    data = header(number, "Exempel^Native", "ISO_IR 100")
    pixels(data, mode)
    data.PhotometricInterpretation = "MONOCHROME2" if mode == "L" else "RGB"
    data.LossyImageCompression = "00"
    data.PixelData = picture(number, mode).tobytes()
    write(data, syntax, f"native-{number}.dcm")


compressed(1, "Åkerblom^Zoë", "ISO_IR 100", "RGB", 2)
compressed(2, "Выдуманный^Лев", "ISO_IR 144", "RGB", 1, open_ended=True)
compressed(3, "Επινοημένη^Ζωή", "ISO_IR 126", "L", 0, offsets=False)
compressed(4, "Kaku^Taro=架空^太郎=かくう^たろう", ["", "ISO 2022 IR 87"], "RGB", 2, fragments=3)
compressed(5, "Dvořáčková^Žofie", "ISO_IR 192", "L", 0, open_ended=True)
compressed(6, "Exempel^Plain", "ISO_IR 100", "RGB", 2, offsets=False)
native(7, ExplicitVRLittleEndian, "RGB")
native(8, ImplicitVRLittleEndian, "L")
