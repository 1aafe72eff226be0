package vestibule.dicom.data;

import java.util.Optional;

/** Value Representations: how the value of an attribute is written (PS3.5 6.2, Table 6.2-1). */
public enum VR {
    AE(Kind.TEXT, false, 16, true, false),
    AS(Kind.TEXT, false, 4, true, false),
    AT(Kind.INTEGER, false, 4, true, false),
    CS(Kind.TEXT, false, 16, true, false),
    DA(Kind.TEXT, false, 8, true, false),
    DS(Kind.TEXT, false, 16, true, false),
    DT(Kind.TEXT, false, 26, true, false),
    FD(Kind.REAL, false, 8, true, false),
    FL(Kind.REAL, false, 4, true, false),
    IS(Kind.TEXT, false, 12, true, false),
    LO(Kind.TEXT, false, 64, true, true),
    LT(Kind.TEXT, false, 10240, false, true),
    OB(Kind.BINARY, true, 1, false, false),
    OD(Kind.BINARY, true, 8, false, false),
    OF(Kind.BINARY, true, 4, false, false),
    OL(Kind.BINARY, true, 4, false, false),
    OV(Kind.BINARY, true, 8, false, false),
    OW(Kind.BINARY, true, 2, false, false),
    PN(Kind.TEXT, false, 64, true, true),
    SH(Kind.TEXT, false, 16, true, true),
    SL(Kind.INTEGER, false, 4, true, false),
    SQ(Kind.SEQUENCE, true, 0, false, false),
    SS(Kind.INTEGER, false, 2, true, false),
    ST(Kind.TEXT, false, 1024, false, true),
    SV(Kind.INTEGER, true, 8, true, false),
    TM(Kind.TEXT, false, 14, true, false),
    UC(Kind.TEXT, true, Integer.MAX_VALUE, true, true),
    UI(Kind.TEXT, false, 64, true, false),
    UL(Kind.INTEGER, false, 4, true, false),
    UN(Kind.BINARY, true, 1, false, false),
    UR(Kind.TEXT, true, Integer.MAX_VALUE, false, false),
    US(Kind.INTEGER, false, 2, true, false),
    UT(Kind.TEXT, true, Integer.MAX_VALUE, false, true),
    UV(Kind.INTEGER, true, 8, true, false);

    /** What the value of an element of this representation is made of. */
    public enum Kind {
        /** Characters. */
        TEXT,
        /** Whole binary numbers. */
        INTEGER,
        /** Binary floating point numbers. */
        REAL,
        /** A run of bytes. */
        BINARY,
        /** Items, each a data set. */
        SEQUENCE
    }

    private final Kind kind;
    private final boolean longForm;
    private final int size;
    private final boolean severalValues;
    private final boolean followsCharacterSet;

    VR(Kind kind, boolean longForm, int size, boolean severalValues, boolean followsCharacterSet) {
        this.kind = kind;
        this.longForm = longForm;
        this.size = size;
        this.severalValues = severalValues;
        this.followsCharacterSet = followsCharacterSet;
    }

    /** The representation of that two-letter name, if there is one. */
    public static Optional<VR> parse(String name) {
        for (VR vr : values()) {
            if (vr.name().equals(name)) {
                return Optional.of(vr);
            }
        }
        return Optional.empty();
    }

    /** What a value is made of. */
    public Kind kind() {
        return kind;
    }

    /** Whether Explicit VR writes two reserved bytes and a 32-bit length (PS3.5 Table 7.1-1). */
    public boolean longForm() {
        return longForm;
    }

    /** For text: the most characters one value may have (a person name: one component group). */
    public int maximumLength() {
        return size;
    }

    /** For numbers and words: the bytes of one value; it is also the unit in which byte order is swapped. */
    public int unitBytes() {
        return kind == Kind.TEXT || kind == Kind.SEQUENCE ? 1 : size;
    }

    /** Whether a backslash parts values; false where it is an ordinary character (PS3.5 6.4). */
    public boolean severalValues() {
        return severalValues;
    }

    /** Whether Specific Character Set (0008,0005) rules the bytes of the value (PS3.5 6.1.2.3). */
    public boolean followsCharacterSet() {
        return followsCharacterSet;
    }

    /** The byte that makes an odd value even: NUL for UI and for bytes, else space (PS3.5 6.2). */
    public byte padding() {
        return this == UI || kind == Kind.BINARY ? (byte) 0 : (byte) ' ';
    }
}
