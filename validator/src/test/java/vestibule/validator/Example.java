package vestibule.validator;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;

/** A file made by code, to be given to the validator. */
@FunctionalInterface
interface Example {

    /** Writes the file. */
    void write(Path file) throws IOException;

    /** A data set in JPEG Baseline, as it is. */
    static Example of(DataSet dataSet) {
        return of(dataSet, TransferSyntax.JPEG_BASELINE);
    }

    /** A data set in some transfer syntax, as it is. */
    static Example of(DataSet dataSet, TransferSyntax syntax) {
        return file -> RawWriter.write(file, dataSet, syntax);
    }

    /** A good photograph under another meta information. */
    static Example meta(DataSet meta) {
        return file -> RawWriter.write(file, meta, Photographs.good());
    }

    /** A good photograph after another preamble. */
    static Example preamble(String start) {
        return file -> {
            byte[] preamble = new byte[128];
            for (int i = 0; i < start.length(); i++) {
                preamble[i] = (byte) start.charAt(i);
            }
            Files.write(file, RawWriter.file(preamble, goodMeta(), RawWriter.encode(Photographs.good())));
        };
    }

    /** The bytes of a good photograph with one run of bytes, given in hexadecimal, in the place of another of its kind. */
    static Example patched(String found, String replacement) {
        return file -> {
            Path good = Files.createTempFile(file.toAbsolutePath().getParent(), "good", ".dcm");
            RawWriter.write(good, Photographs.good(), TransferSyntax.JPEG_BASELINE);
            String digits = java.util.HexFormat.of().formatHex(Files.readAllBytes(good));
            Files.delete(good);
            int at = digits.indexOf(found);
            if (at < 0 || at % 2 != 0) {
                throw new IllegalArgumentException("the good photograph has no bytes " + found);
            }
            String patched = digits.substring(0, at) + replacement + digits.substring(at + found.length());
            Files.write(file, java.util.HexFormat.of().parseHex(patched));
        };
    }

    static DataSet goodMeta() {
        return DicomFile.metaInformation(
                Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE, new Uid("2.25.1003"), TransferSyntax.JPEG_BASELINE);
    }
}
