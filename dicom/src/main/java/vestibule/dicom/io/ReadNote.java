package vestibule.dicom.io;

/**
 * Something a lenient reader forgave.
 *
 * @param kind which departure it is
 * @param offset where, in bytes from the start of the file or message
 * @param detail what was found, without values
 */
public record ReadNote(Kind kind, long offset, String detail) {

    /** The departures that are forgiven. */
    public enum Kind {
        /** No 128 byte preamble with the prefix DICM (PS3.10 7.1). */
        NO_PREAMBLE,
        /** No Transfer Syntax UID in the meta information; it was guessed (PS3.10 7.1). */
        NO_TRANSFER_SYNTAX,
        /** A Transfer Syntax UID that is not in the table; read as Explicit VR Little Endian (PS3.5 10). */
        UNKNOWN_TRANSFER_SYNTAX,
        /** The meta information ends elsewhere than its group length says (PS3.10 Table 7.1-1). */
        META_GROUP_LENGTH,
        /** A value of odd length (PS3.5 7.1.1). */
        ODD_LENGTH,
        /** A tag that is not above the one before it (PS3.5 7.1). */
        ORDER,
        /** A tag that comes twice; the first one stays (PS3.5 7.1). */
        TWICE,
        /** Two bytes that are no Value Representation (PS3.5 6.2). */
        UNKNOWN_VR,
        /** A data set encoded otherwise than its transfer syntax says (PS3.5 10). */
        OTHER_ENCODING,
        /** Binary numbers whose length is no multiple of their size (PS3.5 6.2). */
        RAGGED_NUMBERS,
        /** Bytes that the declared character set does not have (PS3.5 6.1). */
        CHARACTERS,
        /** A character set that this reader does not know (PS3.3 C.12.1.1.2). */
        UNKNOWN_CHARACTER_SET,
        /** Bytes after the end of the data set (PS3.10 7.2). */
        TRAILING_BYTES
    }
}
