package vestibule.dicom.io;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.zip.DataFormatException;
import java.util.zip.Inflater;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Attributes;

/** Reads one file: finds the meta information and the transfer syntax, then the data set (PS3.10 7). */
final class FileReader {

    private static final int PREAMBLE = 128;
    private static final String PREFIX = "DICM";
    private static final int FILE_META_GROUP = 0x0002;

    private final Path path;
    private final ByteSource source;
    private final Limits limits;
    private final List<ReadNote> notes = new ArrayList<>();

    FileReader(Path path, ByteSource source, Limits limits) {
        this.path = path;
        this.source = source;
        this.limits = limits;
    }

    DicomFile read() throws IOException {
        source.order(ByteOrder.LITTLE_ENDIAN);
        Bulk preamble = preamble();
        DataSet meta = meta();
        long start = source.position();
        if (start >= source.size()) {
            throw new DicomFormatException(start, "the end of the file", "a data set");
        }
        TransferSyntax syntax = transferSyntax(meta, start);
        DataSet dataSet = syntax.deflated() ? inflated(start) : dataSet(source, syntax);
        return new DicomFile(path, preamble, meta, syntax, dataSet, start, source.size(), notes);
    }

    private Bulk preamble() throws IOException {
        if (source.size() >= PREAMBLE + PREFIX.length()) {
            byte[] preamble = source.bytes(PREAMBLE);
            boolean prefix = new String(source.bytes(4), StandardCharsets.ISO_8859_1).equals(PREFIX);
            // The four letters may as well stand inside a value of a file without preamble.
            if (prefix && (nextGroupIsMeta(source.position()) || !startsLikeElement())) {
                source.seek(PREAMBLE + PREFIX.length());
                return Bulk.of(preamble);
            }
            source.seek(0);
        }
        if (source.size() < 8 || !looksLikeElement()) {
            throw new DicomFormatException(
                    0, "neither the prefix DICM after 128 bytes nor a data element", "a DICOM file");
        }
        notes.add(new ReadNote(ReadNote.Kind.NO_PREAMBLE, 0, "no preamble with the prefix DICM"));
        return Bulk.EMPTY;
    }

    private boolean startsLikeElement() throws IOException {
        source.seek(0);
        return looksLikeElement();
    }

    /** Without the prefix only a first element of the groups that start real files is believed. */
    private boolean looksLikeElement() throws IOException {
        int group = source.unsignedShort();
        int element = source.unsignedShort();
        byte[] next = source.bytes(4);
        source.seek(0);
        boolean letters =
                VR.parse(new String(next, 0, 2, StandardCharsets.ISO_8859_1)).isPresent();
        boolean little = group == 0x0002 || group == 0x0008;
        boolean big = group == 0x0200 || group == 0x0800;
        boolean plausibleLength = next[2] == 0 && next[3] == 0;
        return (little && element <= 0x1200 && (letters || plausibleLength)) || (big && letters);
    }

    private DataSet meta() throws IOException {
        long start = source.position();
        if (!nextGroupIsMeta(start)) {
            return DataSet.EMPTY;
        }
        long end = metaEnd(start);
        source.seek(start);
        DataSet meta = dataSet(source, end, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        source.seek(end);
        Optional<Long> declared = meta.integer(Attributes.FILE_META_INFORMATION_GROUP_LENGTH);
        if (declared.isPresent() && start + 12 + declared.get() != end) {
            notes.add(new ReadNote(
                    ReadNote.Kind.META_GROUP_LENGTH,
                    start,
                    "the group length says %d bytes, there are %d".formatted(declared.get(), end - start - 12)));
        }
        return meta;
    }

    private boolean nextGroupIsMeta(long position) throws IOException {
        if (position + 8 > source.size()) {
            return false;
        }
        int group = source.unsignedShort();
        source.seek(position);
        return group == FILE_META_GROUP;
    }

    /** Walks group 0002, for its group length is missing or wrong in too many files. */
    private long metaEnd(long start) throws IOException {
        long end = start;
        while (nextGroupIsMeta(end)) {
            source.seek(end + 4);
            VR vr = VR.parse(new String(source.bytes(2), StandardCharsets.ISO_8859_1))
                    .orElseThrow(() -> new DicomFormatException(
                            source.position() - 2, "no Value Representation", "meta information in Explicit VR"));
            long length;
            if (vr.longForm()) {
                source.unsignedShort();
                if (source.size() - source.position() < 4) {
                    throw new DicomFormatException(source.position(), "the end of the file", "a length");
                }
                length = source.unsignedInt();
            } else {
                length = source.unsignedShort();
            }
            if (length > source.size() - source.position()) {
                throw new DicomFormatException(
                        end, "meta information of " + length + " bytes", "no more than the file has");
            }
            end = source.position() + length;
            source.seek(end);
        }
        return end;
    }

    private TransferSyntax transferSyntax(DataSet meta, long start) throws IOException {
        Optional<String> declared = meta.text(Attributes.TRANSFER_SYNTAX_UID);
        Optional<TransferSyntax> known = declared.flatMap(Uid::parse).flatMap(TransferSyntax::of);
        if (known.isPresent() && !known.get().deflated()) {
            return asEncoded(known.get(), start);
        }
        if (known.isPresent()) {
            return known.get();
        }
        boolean explicit = isExplicit(start);
        if (declared.isEmpty()) {
            notes.add(new ReadNote(ReadNote.Kind.NO_TRANSFER_SYNTAX, start, "no transfer syntax is declared"));
        } else {
            notes.add(new ReadNote(ReadNote.Kind.UNKNOWN_TRANSFER_SYNTAX, start, "an unknown transfer syntax"));
        }
        if (isBigEndian(start)) {
            return TransferSyntax.EXPLICIT_VR_BIG_ENDIAN;
        }
        return explicit ? TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN : TransferSyntax.IMPLICIT_VR_LITTLE_ENDIAN;
    }

    /** Some writers declare Explicit VR and write Implicit VR, or the reverse: the bytes decide, and it is noted. */
    private TransferSyntax asEncoded(TransferSyntax declared, long start) throws IOException {
        if (declared.byteOrder() == ByteOrder.BIG_ENDIAN || declared.explicit() == isExplicit(start)) {
            return declared;
        }
        notes.add(new ReadNote(
                ReadNote.Kind.OTHER_ENCODING,
                start,
                "the data set is %s VR, its transfer syntax is not"
                        .formatted(declared.explicit() ? "Implicit" : "Explicit")));
        return new TransferSyntax(
                declared.uid(), !declared.explicit(), declared.byteOrder(), false, declared.encapsulated());
    }

    private boolean isExplicit(long start) throws IOException {
        if (source.size() - start < 8) {
            return true;
        }
        source.seek(start + 4);
        boolean letters = VR.parse(new String(source.bytes(2), StandardCharsets.ISO_8859_1))
                .isPresent();
        source.seek(start);
        return letters;
    }

    private boolean isBigEndian(long start) throws IOException {
        if (source.size() - start < 8) {
            return false;
        }
        int group = source.unsignedShort();
        source.seek(start);
        return group == 0x0800 || group == 0x0200;
    }

    private DataSet dataSet(ByteSource bytes, TransferSyntax syntax) throws IOException {
        return dataSet(bytes, bytes.size(), syntax);
    }

    private DataSet dataSet(ByteSource bytes, long end, TransferSyntax syntax) throws IOException {
        bytes.order(syntax.byteOrder());
        TokenReader tokens = new TokenReader(bytes, end, syntax.explicit(), limits, notes);
        return new DataSetReader(tokens, syntax.byteOrder(), limits, notes).read();
    }

    /** One byte of padding may follow (PS3.5 A.5). */
    private void noteAfterDeflated(long left) {
        if (left > 1) {
            notes.add(new ReadNote(
                    ReadNote.Kind.TRAILING_BYTES,
                    source.size() - left,
                    "%d bytes after the deflated data set".formatted(left)));
        }
    }

    private DataSet inflated(long start) throws IOException {
        Inflater inflater = new Inflater(true);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        byte[] chunk = new byte[1 << 14];
        try {
            source.seek(start);
            while (!inflater.finished()) {
                if (inflater.needsInput()) {
                    long left = source.size() - source.position();
                    if (left == 0) {
                        throw new DicomFormatException(
                                source.size(), "the end of the file", "the rest of a deflated data set");
                    }
                    inflater.setInput(source.bytes((int) Math.min(chunk.length, left)));
                }
                int count = inflater.inflate(chunk);
                if (count > limits.inflatedBytes() - bytes.size()) {
                    throw new DicomFormatException(
                            start, "a data set that inflates beyond " + limits.inflatedBytes() + " bytes", "less");
                }
                bytes.write(chunk, 0, count);
            }
            noteAfterDeflated(source.size() - source.position() + inflater.getRemaining());
        } catch (DataFormatException e) {
            throw new DicomFormatException(source.position(), "bytes that do not inflate", "a deflated data set");
        } finally {
            inflater.end();
        }
        try (ByteSource memory = ByteSource.of(bytes.toByteArray())) {
            return dataSet(memory, TransferSyntax.DEFLATED_EXPLICIT_VR_LITTLE_ENDIAN);
        }
    }
}
