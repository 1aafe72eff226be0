package vestibule.bridge.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import vestibule.bridge.delivery.PatientSearch;
import vestibule.bridge.delivery.SearchException;
import vestibule.bridge.patient.CardPage;
import vestibule.bridge.patient.Evidence;
import vestibule.bridge.patient.Known;
import vestibule.bridge.patient.Patient;
import vestibule.dicom.data.DataSet;

/** Writes the card of a patient to print: what stands on it comes from the archive, not from a keyboard. */
final class PatientCards {

    private PatientCards() {}

    /**
     * Writes the card of the one patient with that id.
     *
     * @param target a file that is not there yet, ending in {@code .html} or {@code .svg}
     */
    static void write(PatientSearch search, String id, Path target) throws Failure, IOException, SearchException {
        List<DataSet> matches = search.withId(id);
        List<Patient> patients = matches.stream()
                .flatMap(match -> Known.of(match, Evidence.Source.ARCHIVE).stream())
                .map(Known::patient)
                .filter(patient -> patient.id().equals(id))
                .distinct()
                .toList();
        if (patients.size() != 1) {
            throw new Failure(
                    Exit.FINDINGS,
                    "--card: the archive knows %s with this id, and a card needs one; give another id, or have the archive put right."
                            .formatted(patients.isEmpty() ? "nobody" : patients.size() + " patients"));
        }
        String name = String.valueOf(target.getFileName());
        boolean page = name.endsWith(".html");
        if (!page && !name.endsWith(".svg")) {
            throw new Failure(Exit.USAGE, "--card %s: expected a name ending in .html or .svg.".formatted(target));
        }
        WrapCommand.checkTarget("--card", target);
        Files.writeString(
                target,
                page ? CardPage.html(patients.get(0)) : CardPage.svg(patients.get(0)),
                StandardCharsets.UTF_8,
                StandardOpenOption.CREATE_NEW);
    }
}
