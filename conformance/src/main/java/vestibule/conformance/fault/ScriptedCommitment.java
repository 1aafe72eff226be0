package vestibule.conformance.fault;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import vestibule.conformance.fault.Script.Promise;
import vestibule.conformance.fault.Script.Report;
import vestibule.conformance.fault.Script.Way;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Command;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.Message;
import vestibule.dicom.net.NegotiatedContext;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.net.RoleSelection;
import vestibule.dicom.net.SupportedContext;
import vestibule.dicom.service.CommitmentRequest;
import vestibule.dicom.service.ProvidedService;
import vestibule.dicom.service.SopReference;

/** Commitment as a script says (PS3.4 J.3.2 N-ACTION, J.3.3 N-EVENT-REPORT), sensible or not. */
final class ScriptedCommitment implements ProvidedService {

    private static final Logger LOG = LoggerFactory.getLogger(ScriptedCommitment.class);
    private static final int LONGEST_REQUEST = 16 << 20;

    private final ScriptedArchive archive;

    ScriptedCommitment(ScriptedArchive archive) {
        this.archive = archive;
    }

    @Override
    public List<SupportedContext> contexts() {
        return List.of(SupportedContext.provider(
                Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                List.of(Uids.EXPLICIT_VR_LITTLE_ENDIAN, Uids.IMPLICIT_VR_LITTLE_ENDIAN)));
    }

    @Override
    public void handle(Association association, Message request) throws IOException {
        Promise promise = archive.asked(requested(association.receiveDataSet(request, LONGEST_REQUEST)));
        if (promise.status().isEmpty()) {
            association.abort();
            return;
        }
        association.send(
                request.context(), request.command().response(promise.status().get(), false));
        // The bridge need not wait for the report: its next object may come first
        association.onRequest(archive::serve);
        for (Report report : promise.reports()) {
            if (report.way() != Way.SAME_ASSOCIATION) {
                archive.elsewhere(report);
            } else {
                archive.isPromising(report);
                boolean taken = send(association, request.context(), report);
                LOG.debug("a report on the same association was {}", taken ? "taken" : "not taken");
            }
        }
    }

    private static CommitmentRequest requested(DataSet information) {
        List<SopReference> objects = information.items(Attributes.REFERENCED_SOP_SEQUENCE).stream()
                .map(item -> new SopReference(
                        uid(item.text(Attributes.REFERENCED_SOP_CLASS_UID)),
                        uid(item.text(Attributes.REFERENCED_SOP_INSTANCE_UID))))
                .toList();
        return new CommitmentRequest(uid(information.text(Attributes.TRANSACTION_UID)), objects);
    }

    private static Uid uid(Optional<String> text) {
        return text.flatMap(Uid::parse)
                .orElseThrow(() -> new IllegalArgumentException("commitment request: found no UID where one belongs"));
    }

    /** Sends a report on an association that stands; says whether it was taken with success. */
    private static boolean send(Association association, NegotiatedContext context, Report report) throws IOException {
        Command event = Command.eventReport(
                association.nextMessageId(),
                Uids.STORAGE_COMMITMENT_PUSH_MODEL,
                Uids.STORAGE_COMMITMENT_PUSH_MODEL_INSTANCE,
                report.eventType());
        association.send(context, event, information(report));
        return association.answerTo(event).command().status() == 0;
    }

    /** Sends a report on an association of the archive's own, in the role of provider (PS3.7 D.3.3.4). */
    static boolean deliver(Report report, AeTitle own, ApplicationEntity bridge, Deadlines deadlines) {
        AssociationRequest request = AssociationRequest.of(
                        own,
                        List.of(ProposedContext.of(Uids.STORAGE_COMMITMENT_PUSH_MODEL, Uids.IMPLICIT_VR_LITTLE_ENDIAN)))
                .withRoles(List.of(new RoleSelection(Uids.STORAGE_COMMITMENT_PUSH_MODEL, false, true)));
        try (Association association = Association.open(request, bridge, deadlines)) {
            Optional<NegotiatedContext> context = association.accepted(Uids.STORAGE_COMMITMENT_PUSH_MODEL);
            return context.isPresent() && send(association, context.get(), report);
        } catch (IOException e) {
            LOG.debug("a report did not arrive: {}", e.getMessage());
            return false;
        }
    }

    private static DataSet information(Report report) {
        DataSet.Builder information = DataSet.builder()
                .put(Attributes.TRANSACTION_UID, report.transaction().value());
        if (!report.committed().isEmpty()) {
            information.put(
                    Attributes.REFERENCED_SOP_SEQUENCE,
                    report.committed().stream().map(SopReference::toItem).toList());
        }
        if (!report.failed().isEmpty()) {
            information.put(
                    Attributes.FAILED_SOP_SEQUENCE,
                    report.failed().stream()
                            .map(object -> object.toItem().toBuilder()
                                    .put(Attributes.FAILURE_REASON, report.reason())
                                    .build())
                            .toList());
        }
        return information.build();
    }
}
