package vestibule.dicom.net.pdu;

import java.nio.ByteBuffer;
import java.util.List;

/** A protocol data unit of the DICOM upper layer: one of these seven (PS3.8 9.3.1). */
public sealed interface Pdu {

    /** How many bytes stand before the variable field: type, reserved byte, length (PS3.8 9.3.1). */
    int HEADER_LENGTH = 6;

    /** The first byte on the wire. */
    int type();

    /**
     * A-ASSOCIATE-RQ (PS3.8 9.3.2).
     *
     * @param protocolVersion a bit field of which bit 0 counts
     * @param calledAe bytes 11 to 26 as Latin-1 characters, padding included when read
     * @param callingAe bytes 27 to 42, likewise
     * @param reserved bytes 43 to 74, likewise; sent as zeros, echoed by the acceptor
     * @param applicationContext the name of the application context
     * @param contexts the presentation contexts proposed, in order
     * @param user the user information
     */
    record AssociateRq(
            int protocolVersion,
            String calledAe,
            String callingAe,
            String reserved,
            String applicationContext,
            List<ProposedItem> contexts,
            UserInformation user)
            implements Pdu {

        static final int TYPE = 0x01;

        public AssociateRq {
            contexts = List.copyOf(contexts);
        }

        @Override
        public int type() {
            return TYPE;
        }
    }

    /**
     * A-ASSOCIATE-AC (PS3.8 9.3.3); bytes 11 to 74 repeat those of the request.
     *
     * @param protocolVersion a bit field of which bit 0 counts
     * @param calledAe bytes 11 to 26 of the request
     * @param callingAe bytes 27 to 42 of the request
     * @param reserved bytes 43 to 74 of the request
     * @param applicationContext the name of the application context
     * @param contexts the answer to each proposed presentation context
     * @param user the user information
     */
    record AssociateAc(
            int protocolVersion,
            String calledAe,
            String callingAe,
            String reserved,
            String applicationContext,
            List<ResultItem> contexts,
            UserInformation user)
            implements Pdu {

        static final int TYPE = 0x02;

        public AssociateAc {
            contexts = List.copyOf(contexts);
        }

        @Override
        public int type() {
            return TYPE;
        }
    }

    /**
     * A-ASSOCIATE-RJ (PS3.8 9.3.4, Table 9-21).
     *
     * @param result permanent or transient
     * @param source who rejects
     * @param reason why, to be read with the source
     */
    record AssociateRj(int result, int source, int reason) implements Pdu {

        static final int TYPE = 0x03;

        @Override
        public int type() {
            return TYPE;
        }
    }

    /**
     * P-DATA-TF (PS3.8 9.3.5).
     *
     * @param values the presentation data values in order
     */
    record PData(List<Pdv> values) implements Pdu {

        static final int TYPE = 0x04;

        public PData {
            values = List.copyOf(values);
        }

        @Override
        public int type() {
            return TYPE;
        }
    }

    /** A-RELEASE-RQ (PS3.8 9.3.6). */
    record ReleaseRq() implements Pdu {

        static final int TYPE = 0x05;

        @Override
        public int type() {
            return TYPE;
        }
    }

    /** A-RELEASE-RP (PS3.8 9.3.7). */
    record ReleaseRp() implements Pdu {

        static final int TYPE = 0x06;

        @Override
        public int type() {
            return TYPE;
        }
    }

    /**
     * A-ABORT (PS3.8 9.3.8, Table 9-26).
     *
     * @param source who aborts
     * @param reason why; it counts only where the service provider aborts
     */
    record Abort(int source, int reason) implements Pdu {

        static final int TYPE = 0x07;

        @Override
        public int type() {
            return TYPE;
        }
    }

    /**
     * A presentation data value (PS3.8 9.3.5.1, E.2): a fragment of a command set or a data set.
     *
     * @param contextId the presentation context
     * @param command whether the fragment belongs to a command set, else to a data set
     * @param last whether it is the last fragment of that set
     * @param fragment the bytes; after reading, a view that is good until the next PDU is read
     */
    record Pdv(int contextId, boolean command, boolean last, ByteBuffer fragment) {

        /** How many bytes stand before the fragment: length, presentation context, message control header. */
        public static final int HEADER_LENGTH = 6;

        /** The message control header (PS3.8 E.2). */
        public byte control() {
            return (byte) ((command ? 1 : 0) | (last ? 2 : 0));
        }
    }

    /**
     * A presentation context as proposed (PS3.8 9.3.2.2).
     *
     * @param id an odd number from 1 to 255
     * @param abstractSyntax the SOP class
     * @param transferSyntaxes what is offered for it, in order
     */
    record ProposedItem(int id, String abstractSyntax, List<String> transferSyntaxes) {
        public ProposedItem {
            transferSyntaxes = List.copyOf(transferSyntaxes);
        }
    }

    /**
     * The answer to a presentation context (PS3.8 9.3.3.2).
     *
     * @param id the number it was proposed under
     * @param result 0 accepted, 1 to 4 rejected
     * @param transferSyntax the one chosen; it means something only if accepted
     */
    record ResultItem(int id, int result, String transferSyntax) {}
}
