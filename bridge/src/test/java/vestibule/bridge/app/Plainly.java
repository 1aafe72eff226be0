package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tools.jackson.databind.json.JsonMapper;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.object.PhotographicObject;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.PictureMaker;
import vestibule.bridge.photo.Scratch;
import vestibule.bridge.settings.Practice;
import vestibule.bridge.settings.Settings;
import vestibule.bridge.view.CodingProfile;
import vestibule.bridge.view.ContradictionException;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.ViewCatalogue;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.io.DicomFile;

/**
 * An understanding for tests of what keeps photographs safe: everybody is the same invented patient, every picture a front view; a file
 * whose name holds {@code doubt} needs a word about the view, one that holds {@code card} is set aside.
 */
final class Plainly implements Understanding {

    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final String FRONT = "teeth-front-occlusion";

    @Override
    public Deciding deciding(Settings settings, Optional<Destination> archive, String ourTitle, Memory memory) {
        return source -> {
            List<Deciding.Candidate> candidates = source.candidates(source.all());
            List<Deciding.Ruling> rulings =
                    candidates.stream().map(Plainly::ruling).toList();
            source.record(candidates, new Deciding.Round(rulings, List.of()));
        };
    }

    private static Deciding.Ruling ruling(Deciding.Candidate photo) {
        Optional<String> view = photo.statements().stream()
                .filter(said -> said.about().equals("view"))
                .map(Deciding.Statement::value)
                .reduce((first, last) -> last);
        if (photo.name().contains("card")) {
            return new Deciding.Aside(photo.photo(), "it is a patient card");
        }
        return photo.name().contains("doubt") && view.isEmpty()
                ? new Deciding.Doubtful(photo.photo(), "view-unknown", "Nobody said what it shows.", Optional.empty())
                : new Deciding.Decided(photo.photo(), JSON.writeValueAsString(Map.of("view", view.orElse(FRONT))));
    }

    @Override
    public Making making(Settings settings, Path scratch) {
        return (original, decision, into) -> make(original, decision, into, scratch);
    }

    private static List<Making.Made> make(Path original, String decision, Path into, Path scratchParent)
            throws Failure, IOException {
        try (Scratch scratch = Scratch.in(Files.createDirectories(scratchParent))) {
            Wrapping wrapping = new Wrapping(
                    new PictureMaker(scratch),
                    Clock.system(ZoneOffset.UTC),
                    Practice.UNSAID,
                    Practice.UNSAID.pictures());
            PhotographicObject object = wrapping.wrap(original, decisions(decision), Wrapping.Raw.NEVER)
                    .object();
            Path file = into.resolve("object.dcm");
            DicomFile.write(file, object.dataSet(), object.transferSyntax());
            DicomFile written = DicomFile.read(file);
            return List.of(new Making.Made(
                    file,
                    written.sopClass().orElseThrow().value(),
                    written.sopInstance().orElseThrow().value()));
        }
    }

    private static Wrapping.Decisions decisions(String decision) {
        String view = JSON.readTree(decision).get("view").asString();
        Patient patient = new Patient(
                "PG-0001",
                Optional.empty(),
                PersonName.parse("Exempel^Zoë").orElseThrow(),
                Optional.empty(),
                Optional.empty());
        try {
            Placement placement = Placement.of(
                    ViewCatalogue.standard().view(view).orElseThrow(),
                    Optional.empty(),
                    Optional.empty(),
                    List.of(),
                    CodingProfile.DENTAL);
            return new Wrapping.Decisions(patient, placement, Visit.UNSAID, Optional.empty(), Duration.ZERO);
        } catch (ContradictionException e) {
            throw new IllegalArgumentException(e);
        }
    }
}
