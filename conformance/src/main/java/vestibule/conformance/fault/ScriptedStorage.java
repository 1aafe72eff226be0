package vestibule.conformance.fault;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.channels.Channels;
import java.util.List;
import vestibule.conformance.fault.Script.Reception;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;
import vestibule.dicom.service.ProvidedService;

/** Storage as a script says (PS3.4 B, C-STORE). */
final class ScriptedStorage implements ProvidedService {

    private static final int LONGEST_OBJECT = 1 << 27;
    private static final List<Uid> SYNTAXES =
            List.of(Uids.JPEG_BASELINE8_BIT, Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN);

    private final ScriptedArchive archive;

    ScriptedStorage(ScriptedArchive archive) {
        this.archive = archive;
    }

    @Override
    public List<SupportedContext> contexts() {
        return Dictionary.standard().uids("SOP Class").stream()
                .filter(entry ->
                        entry.keyword().contains("Storage") && !entry.keyword().contains("StorageCommitment"))
                .filter(entry -> !entry.keyword().equals("MediaStorageDirectoryStorage"))
                .map(entry -> SupportedContext.provider(entry.uid(), SYNTAXES))
                .toList();
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        if (request.command().field() != CommandField.C_STORE_RQ) {
            throw association.violation(request.command().field() + " came on a context of storage");
        }
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        association.receiveDataSet(Channels.newChannel(bytes), LONGEST_OBJECT);
        Uid syntax = request.context().transferSyntax().orElseThrow();
        HeldObject object = HeldObject.of(
                request.command().sopClass().orElseThrow(),
                request.command().sopInstance().orElseThrow(),
                bytes.toByteArray(),
                TransferSyntax.of(syntax).orElseThrow());
        answer(association, request, archive.arrived(object, bytes.toByteArray()));
    }

    private static void answer(Association association, Message request, Reception reception) throws IOException {
        if (!reception.answers()) {
            association.abort();
            return;
        }
        Command answer = request.command().response(reception.status(), false);
        association.send(
                request.context(), reception.comment().isEmpty() ? answer : answer.withComment(reception.comment()));
    }
}
