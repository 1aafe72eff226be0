package vestibule.conformance.fault;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.net.SupportedContext;
import vestibule.dicom.service.ProvidedService;
import vestibule.dicom.service.Status;

/** Gives objects back on the association that asks (PS3.4 C.4.3, C-GET), for the check that reads back what was sent. */
final class ScriptedRetrieval implements ProvidedService {

    private static final int LONGEST_IDENTIFIER = 1 << 20;
    private static final List<Attribute> UNIQUE_KEYS =
            List.of(Attributes.STUDY_INSTANCE_UID, Attributes.SERIES_INSTANCE_UID, Attributes.SOP_INSTANCE_UID);

    private final ScriptedArchive archive;

    ScriptedRetrieval(ScriptedArchive archive) {
        this.archive = archive;
    }

    /** Whether an object answers the unique keys of an identifier; other keys do not narrow the answer. */
    static boolean matches(DataSet keys, DataSet header) {
        return UNIQUE_KEYS.stream()
                .allMatch(key -> keys.texts(key).isEmpty()
                        || keys.texts(key).contains(header.text(key).orElse("")));
    }

    @Override
    public List<SupportedContext> contexts() {
        return List.of(SupportedContext.provider(
                Uids.STUDY_ROOT_QUERY_RETRIEVE_INFORMATION_MODEL_GET,
                List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        DataSet keys = association.receiveDataSet(request, LONGEST_IDENTIFIER);
        int completed = 0;
        int failed = 0;
        for (HeldObject object : archive.held().values()) {
            if (matches(keys, object.header())) {
                if (give(association, object)) {
                    completed++;
                } else {
                    failed++;
                }
            }
        }
        int status = failed == 0 ? Status.SUCCESS : 0xB000;
        Command answer = request.command().response(status, false).withSuboperations(-1, completed, failed, 0);
        association.send(request.context(), answer);
    }

    private boolean give(Association association, HeldObject object) throws IOException {
        Optional<byte[]> bytes = archive.bytes(object.sopInstance());
        Optional<NegotiatedContext> context = association.accepted(object.sopClass(), Uids.JPEG_BASELINE8_BIT);
        if (bytes.isEmpty() || context.isEmpty()) {
            return false;
        }
        Command store = Command.store(association.nextMessageId(), object.sopClass(), object.sopInstance());
        association.send(context.get(), store, Bulk.of(bytes.get()));
        return association.answerTo(store).command().status() == Status.SUCCESS;
    }
}
