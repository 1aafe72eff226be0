package vestibule.dicom.net.pdu;

import java.nio.ByteBuffer;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.io.DicomFormatException;

/** Reads the variable fields of A-ASSOCIATE-RQ and -AC (PS3.8 9.3.2, 9.3.3). */
final class AssociateReader {

    private final ItemReader bytes;
    private String applicationContext = "";
    private final List<Pdu.ProposedItem> proposed = new ArrayList<>();
    private final List<Pdu.ResultItem> results = new ArrayList<>();
    private final Set<Integer> ids = new HashSet<>();
    private @Nullable UserInformation user;

    private AssociateReader(ByteBuffer body) {
        this.bytes = new ItemReader(body);
    }

    static Pdu.AssociateRq request(ByteBuffer body) throws DicomFormatException {
        AssociateReader reader = new AssociateReader(body);
        int version = reader.version();
        String called = reader.bytes.text(16);
        String calling = reader.bytes.text(16);
        String reserved = reader.bytes.text(32);
        reader.items();
        return new Pdu.AssociateRq(
                version, called, calling, reserved, reader.applicationContext, reader.proposed, reader.user());
    }

    static Pdu.AssociateAc accept(ByteBuffer body) throws DicomFormatException {
        AssociateReader reader = new AssociateReader(body);
        int version = reader.version();
        String called = reader.bytes.text(16);
        String calling = reader.bytes.text(16);
        String reserved = reader.bytes.text(32);
        reader.items();
        return new Pdu.AssociateAc(
                version, called, calling, reserved, reader.applicationContext, reader.results, reader.user());
    }

    private int version() throws DicomFormatException {
        int version = bytes.two();
        bytes.two();
        return version;
    }

    private UserInformation user() {
        return user != null ? user : UserInformation.of(UserInformation.MAXIMUM_LENGTH_IF_ABSENT, "", "");
    }

    private void items() throws DicomFormatException {
        while (bytes.hasMore()) {
            ItemReader.Item item = bytes.item();
            switch (item.type()) {
                case Items.APPLICATION_CONTEXT ->
                    applicationContext = item.content().unpadded();
                case Items.PROPOSED_CONTEXT -> proposed.add(proposedContext(item.content()));
                case Items.RESULT_CONTEXT -> results.add(resultContext(item.content()));
                case Items.USER_INFORMATION -> user = new UserReader().read(item.content());
                default -> {
                    // An item of another type is skipped (PS3.8 9.3.1)
                }
            }
        }
    }

    private int contextId(ItemReader content) throws DicomFormatException {
        int id = content.one();
        if ((id & 1) == 0) {
            throw new DicomFormatException("a presentation context has the number %d; it must be odd".formatted(id));
        }
        if (!ids.add(id)) {
            throw new DicomFormatException("two presentation contexts have the number %d".formatted(id));
        }
        return id;
    }

    private Pdu.ProposedItem proposedContext(ItemReader content) throws DicomFormatException {
        int id = contextId(content);
        content.text(3);
        String abstractSyntax = "";
        List<String> transferSyntaxes = new ArrayList<>();
        while (content.hasMore()) {
            ItemReader.Item item = content.item();
            if (item.type() == Items.ABSTRACT_SYNTAX) {
                abstractSyntax = item.content().unpadded();
            } else if (item.type() == Items.TRANSFER_SYNTAX) {
                transferSyntaxes.add(item.content().unpadded());
            }
        }
        return new Pdu.ProposedItem(id, abstractSyntax, transferSyntaxes);
    }

    private Pdu.ResultItem resultContext(ItemReader content) throws DicomFormatException {
        int id = contextId(content);
        content.one();
        int result = content.one();
        content.one();
        String transferSyntax = "";
        while (content.hasMore()) {
            ItemReader.Item item = content.item();
            if (item.type() == Items.TRANSFER_SYNTAX) {
                transferSyntax = item.content().unpadded();
            }
        }
        return new Pdu.ResultItem(id, result, transferSyntax);
    }

    /** Reads the sub-items of User Information (PS3.7 D.3.3). */
    private static final class UserReader {
        private long maximumLength = UserInformation.MAXIMUM_LENGTH_IF_ABSENT;
        private String implementationClass = "";
        private String implementationVersion = "";
        private UserInformation.@Nullable AsynchronousWindow asynchronous;
        private final List<UserInformation.Role> roles = new ArrayList<>();
        private final List<UserInformation.Extended> extended = new ArrayList<>();
        private final List<UserInformation.CommonExtended> commonExtended = new ArrayList<>();
        private UserInformation.@Nullable Identity identity;
        private @Nullable Bulk identityResponse;

        UserInformation read(ItemReader items) throws DicomFormatException {
            while (items.hasMore()) {
                ItemReader.Item item = items.item();
                read(item.type(), item.content());
            }
            return new UserInformation(
                    maximumLength,
                    implementationClass,
                    implementationVersion,
                    Optional.ofNullable(asynchronous),
                    roles,
                    extended,
                    commonExtended,
                    Optional.ofNullable(identity),
                    Optional.ofNullable(identityResponse));
        }

        private void read(int type, ItemReader content) throws DicomFormatException {
            switch (type) {
                case Items.MAXIMUM_LENGTH -> maximumLength = content.four();
                case Items.IMPLEMENTATION_CLASS -> implementationClass = content.unpadded();
                case Items.IMPLEMENTATION_VERSION -> implementationVersion = content.unpadded();
                case Items.ASYNCHRONOUS_WINDOW ->
                    asynchronous = new UserInformation.AsynchronousWindow(content.two(), content.two());
                case Items.ROLE_SELECTION ->
                    roles.add(new UserInformation.Role(
                            content.counted().unpadded(), content.one() != 0, content.one() != 0));
                case Items.EXTENDED_NEGOTIATION ->
                    extended.add(new UserInformation.Extended(content.counted().unpadded(), content.rest()));
                case Items.COMMON_EXTENDED_NEGOTIATION -> commonExtended.add(commonExtended(content));
                case Items.USER_IDENTITY -> identity = identity(content);
                case Items.USER_IDENTITY_RESPONSE ->
                    identityResponse = content.counted().rest();
                default -> {
                    // A sub-item of another type is skipped (PS3.7 D.3.3)
                }
            }
        }

        private static UserInformation.CommonExtended commonExtended(ItemReader content) throws DicomFormatException {
            String sopClass = content.counted().unpadded();
            String serviceClass = content.counted().unpadded();
            List<String> general = new ArrayList<>();
            if (content.hasMore()) {
                ItemReader classes = content.counted();
                while (classes.hasMore()) {
                    general.add(classes.counted().unpadded());
                }
            }
            return new UserInformation.CommonExtended(sopClass, serviceClass, general);
        }

        private static UserInformation.Identity identity(ItemReader content) throws DicomFormatException {
            int type = content.one();
            boolean responseWanted = content.one() != 0;
            Bulk primary = content.counted().rest();
            Bulk secondary = content.counted().rest();
            return new UserInformation.Identity(type, responseWanted, primary, secondary);
        }
    }
}
