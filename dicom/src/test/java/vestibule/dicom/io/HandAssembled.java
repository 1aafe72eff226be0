package vestibule.dicom.io;

import vestibule.samples.Hex;

/** Small files written out byte by byte, the way PS3.5 7 and PS3.10 7 lay them down. */
final class HandAssembled {

    /** Meta information of JPEG Baseline; it has 48 hexadecimal bytes after its group length. */
    static final String META_JPEG = """
            0200 0000 "UL" 0400 48000000                # group length
            0200 0100 "OB" 0000 02000000 0001           # version
            0200 0200 "UI" 0600 "1.2.3" 00              # SOP Class, padded with NUL
            0200 0300 "UI" 0600 "1.2.34"                # SOP Instance
            0200 1000 "UI" 1600 "1.2.840.10008.1.2.4.50"     # JPEG Baseline
            """;

    /** An object in Explicit VR Little Endian with sequences of every form, and encapsulated pixel data. */
    static final String EXPLICIT = """
            0800 0500 "CS" 0A00 "ISO_IR 100"
            0800 1600 "UI" 0600 "1.2.3" 00
            0800 1800 "UI" 0600 "1.2.34"
            0800 1511 "SQ" 0000 FFFFFFFF                # undefined length
              FEFF 00E0 FFFFFFFF                        #   item of undefined length
                1000 1000 "PN" 0400 "B" FC "c" 20       #     Bü c, inherits Latin-1
              FEFF 0DE0 00000000
              FEFF 00E0 0C000000                        #   item of defined length
                1000 2000 "LO" 0400 "P1" 5C "2"         #     two values
            FEFF DDE0 00000000
            0900 1000 "LO" 0400 "ACME"                  # private creator
            0900 0110 "UN" 0000 FFFFFFFF                # UN of undefined length: items in Implicit VR (6.2.2)
              FEFF 00E0 0A000000
                1000 2000 02000000 "X" 20
            FEFF DDE0 00000000
            1800 1160 "SQ" 0000 08000000                # defined length
              FEFF 00E0 00000000                        #   empty item
            2800 0900 "AT" 0400 5400 1000               # (0054,0010)
            2800 1000 "US" 0200 E001                    # 480
            4000 60A1 "UT" 0000 02000000 "a" 5C         # a backslash is no delimiter here
            4000 30A7 "SQ" 0000 00000000                # no item
            6900 1100 "LO" 0400 "ACME"                  # private creator of block 11
            6900 1011 "FD" 0800 000000000000F83F        # 1.5
            E07F 1000 "OB" 0000 FFFFFFFF
              FEFF 00E0 04000000 00000000               #   offset table
              FEFF 00E0 04000000 FFD8FFD9
              FEFF 00E0 02000000 AABB
            FEFF DDE0 00000000
            """;

    private HandAssembled() {}

    /** Preamble, prefix, and what follows, in commented hexadecimal. */
    static byte[] file(String afterPrefix) {
        return Hex.read("128 * 00 \"DICM\"\n" + afterPrefix);
    }

    static byte[] jpegFile() {
        return file(META_JPEG + EXPLICIT);
    }
}
