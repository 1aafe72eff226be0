package vestibule.dicom.io;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.nio.channels.WritableByteChannel;
import java.util.ArrayList;
import java.util.List;
import vestibule.dicom.data.DataSet;

/** Data sets as bytes without a file around them: what messages of the network carry (PS3.5 7; PS3.7 6.3.1). */
public final class DataSetCodec {

    private DataSetCodec() {}

    /** How much of PS3.5 6.2 a writer insists on. */
    public enum Strictness {
        /** An object: every value has the form of its representation and the attribute's multiplicity. */
        OBJECT,
        /** Keys of a query: wild cards, ranges and lists are allowed (PS3.4 C.2.2.2). */
        QUERY
    }

    /**
     * Reads a data set, under the default limits.
     *
     * @throws DicomFormatException if the bytes are no data set in that transfer syntax
     */
    public static DataSet decode(byte[] bytes, TransferSyntax syntax) throws IOException {
        return decode(bytes, syntax, Limits.DEFAULT);
    }

    /**
     * Reads a data set.
     *
     * @throws DicomFormatException if the bytes are no data set in that transfer syntax, or beyond the limits
     */
    public static DataSet decode(byte[] bytes, TransferSyntax syntax, Limits limits) throws IOException {
        List<ReadNote> notes = new ArrayList<>();
        try (ByteSource source = ByteSource.of(bytes)) {
            source.order(syntax.byteOrder());
            TokenReader tokens = new TokenReader(source, source.size(), syntax.explicit(), limits, notes);
            return new DataSetReader(tokens, syntax.byteOrder(), limits, notes).read();
        }
    }

    /**
     * Writes a data set into memory.
     *
     * @throws DicomFormatException if a value does not fit its representation; nothing is changed to make it fit
     */
    public static byte[] encode(DataSet dataSet, TransferSyntax syntax, Strictness strictness) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (WritableByteChannel channel = Channels.newChannel(bytes)) {
            write(dataSet, syntax, strictness, channel);
        }
        return bytes.toByteArray();
    }

    /**
     * Writes a data set to a channel; values that are held by reference go there without entering memory.
     *
     * @throws DicomFormatException if a value does not fit its representation; what was written before stays written
     */
    public static void write(DataSet dataSet, TransferSyntax syntax, Strictness strictness, WritableByteChannel target)
            throws IOException {
        DataSetWriter writer = new DataSetWriter(syntax, strictness, target);
        writer.write(dataSet);
        writer.flush();
    }
}
