package vestibule.dicom.net.pdu;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import vestibule.dicom.data.Bulk;

/** The variable fields of A-ASSOCIATE-RQ and -AC (PS3.8 9.3.2, 9.3.3). */
final class AssociateWriter {

    private AssociateWriter() {}

    static void write(PduBytes bytes, Pdu.AssociateRq request) {
        start(bytes, request.protocolVersion(), request.calledAe(), request.callingAe(), request.reserved());
        text(bytes, Items.APPLICATION_CONTEXT, request.applicationContext());
        for (Pdu.ProposedItem context : request.contexts()) {
            bytes.item(Items.PROPOSED_CONTEXT, () -> {
                bytes.one(context.id()).one(0).one(0).one(0);
                text(bytes, Items.ABSTRACT_SYNTAX, context.abstractSyntax());
                context.transferSyntaxes().forEach(syntax -> text(bytes, Items.TRANSFER_SYNTAX, syntax));
            });
        }
        user(bytes, request.user());
    }

    static void write(PduBytes bytes, Pdu.AssociateAc accept) {
        start(bytes, accept.protocolVersion(), accept.calledAe(), accept.callingAe(), accept.reserved());
        text(bytes, Items.APPLICATION_CONTEXT, accept.applicationContext());
        for (Pdu.ResultItem context : accept.contexts()) {
            bytes.item(Items.RESULT_CONTEXT, () -> {
                bytes.one(context.id()).one(0).one(context.result()).one(0);
                text(bytes, Items.TRANSFER_SYNTAX, context.transferSyntax());
            });
        }
        user(bytes, accept.user());
    }

    private static void start(PduBytes bytes, int version, String called, String calling, String reserved) {
        bytes.two(version).two(0);
        bytes.field(called, 16, ' ').field(calling, 16, ' ').field(reserved, 32, '\0');
    }

    private static void text(PduBytes bytes, int type, String text) {
        bytes.item(type, () -> bytes.text(text));
    }

    private static void user(PduBytes bytes, UserInformation user) {
        bytes.item(Items.USER_INFORMATION, () -> {
            bytes.item(Items.MAXIMUM_LENGTH, () -> bytes.four(user.maximumLength()));
            text(bytes, Items.IMPLEMENTATION_CLASS, user.implementationClass());
            user.asynchronous()
                    .ifPresent(window -> bytes.item(
                            Items.ASYNCHRONOUS_WINDOW,
                            () -> bytes.two(window.invoked()).two(window.performed())));
            user.roles().forEach(role -> role(bytes, role));
            if (!user.implementationVersion().isEmpty()) {
                text(bytes, Items.IMPLEMENTATION_VERSION, user.implementationVersion());
            }
            user.extended().forEach(extended -> extended(bytes, extended));
            user.commonExtended().forEach(common -> common(bytes, common));
            user.identity().ifPresent(identity -> identity(bytes, identity));
            user.identityResponse()
                    .ifPresent(response -> bytes.item(
                            Items.USER_IDENTITY_RESPONSE, () -> bytes.counted(2, () -> bulk(bytes, response))));
        });
    }

    private static void role(PduBytes bytes, UserInformation.Role role) {
        bytes.item(
                Items.ROLE_SELECTION,
                () -> bytes.counted(2, () -> bytes.text(role.sopClass()))
                        .one(role.user() ? 1 : 0)
                        .one(role.provider() ? 1 : 0));
    }

    private static void extended(PduBytes bytes, UserInformation.Extended extended) {
        bytes.item(Items.EXTENDED_NEGOTIATION, () -> {
            bytes.counted(2, () -> bytes.text(extended.sopClass()));
            bulk(bytes, extended.information());
        });
    }

    private static void common(PduBytes bytes, UserInformation.CommonExtended common) {
        bytes.item(Items.COMMON_EXTENDED_NEGOTIATION, () -> {
            bytes.counted(2, () -> bytes.text(common.sopClass()));
            bytes.counted(2, () -> bytes.text(common.serviceClass()));
            List<String> general = common.general();
            bytes.counted(2, () -> general.forEach(uid -> bytes.counted(2, () -> bytes.text(uid))));
        });
    }

    private static void identity(PduBytes bytes, UserInformation.Identity identity) {
        bytes.item(Items.USER_IDENTITY, () -> {
            bytes.one(identity.type()).one(identity.responseWanted() ? 1 : 0);
            bytes.counted(2, () -> bulk(bytes, identity.primary()));
            bytes.counted(2, () -> bulk(bytes, identity.secondary()));
        });
    }

    private static void bulk(PduBytes bytes, Bulk bulk) {
        try {
            bytes.bytes(bulk.bytes(0xFFFF));
        } catch (IOException e) {
            throw new UncheckedIOException("negotiation items are held in memory and are short", e);
        }
    }
}
