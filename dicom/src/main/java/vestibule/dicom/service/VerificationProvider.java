package vestibule.dicom.service;

import java.io.IOException;
import java.util.List;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.CommandField;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.SupportedContext;

/** Answers C-ECHO (PS3.4 A.4). */
public final class VerificationProvider implements ProvidedService {

    /** A provider; it has nothing to set. */
    public VerificationProvider() {}

    @Override
    public List<SupportedContext> contexts() {
        return List.of(SupportedContext.provider(
                Uids.VERIFICATION, List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        if (request.command().field() == CommandField.C_ECHO_RQ) {
            ServiceProvider.answer(association, request, Status.SUCCESS, "");
        } else {
            ServiceProvider.unrecognized(association, request);
        }
    }
}
