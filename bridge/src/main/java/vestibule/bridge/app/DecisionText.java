package vestibule.bridge.app;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import vestibule.bridge.object.Order;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.view.Capture;
import vestibule.bridge.view.ContradictionException;
import vestibule.bridge.view.Correction;
import vestibule.bridge.view.Laid;
import vestibule.bridge.view.Orientation;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.Stage;
import vestibule.bridge.view.Tooth;
import vestibule.bridge.view.View;
import vestibule.bridge.view.ViewRules;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.TextForm;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;

/**
 * A decision as the outbox keeps it: everything an object is made from beside the photograph, and the grounds. A proposal has the same
 * form and may be incomplete.
 *
 * @param patient who, if decided
 * @param shown which view and how taken, if decided
 * @param visit the study and series
 * @param clock how much has to be added to the camera's clock; zero for a right one
 * @param grounds why
 * @param edition how often an object of the photograph was taken back
 */
record DecisionText(
        Optional<Patient> patient,
        Optional<Shown> shown,
        Visit visit,
        Duration clock,
        List<Ground> grounds,
        int edition) {

    /** The version of the form that is written. */
    static final int VERSION = 2;

    /** A version that did not keep which way the finished picture lies; it is read as well. */
    private static final int WITHOUT_ORIENTATION = 1;

    /** Nothing decided. */
    static final DecisionText NOTHING =
            new DecisionText(Optional.empty(), Optional.empty(), Visit.UNSAID, Duration.ZERO, List.of());

    private static final String WHAT = "the decision";

    DecisionText {
        grounds = List.copyOf(grounds);
    }

    /** Of a photograph of which nothing was taken back. */
    DecisionText(Optional<Patient> patient, Optional<Shown> shown, Visit visit, Duration clock, List<Ground> grounds) {
        this(patient, shown, visit, clock, grounds, 0);
    }

    /**
     * Which view and how it was taken, in the words of the catalogue.
     *
     * @param view the view's id
     * @param capture how the camera looked, if it was said
     * @param correctBy what puts the picture right, where it is not what the set-up asks for
     * @param orientation Patient Orientation of the finished picture, which no settings change after that; empty where the view has none,
     *     and where the decision was written before it was kept
     * @param like the view whose direction it shares
     * @param teeth the teeth that a person named
     */
    record Shown(
            String view,
            Optional<Capture> capture,
            Optional<Correction> correctBy,
            Optional<String> orientation,
            Optional<String> like,
            List<String> teeth) {

        Shown {
            teeth = List.copyOf(teeth);
        }

        /** How the picture was laid. */
        Laid laid() {
            return new Laid(correctBy, orientation);
        }

        /** As it would be written where which way the picture lies was not kept. */
        Shown withoutOrientation() {
            return new Shown(view, capture, correctBy, Optional.empty(), like, teeth);
        }

        /**
         * Where on the body, which side, which way round.
         *
         * @throws ContradictionException if the parts do not fit together, or name what is not in the catalogue
         */
        Placement placement(ViewRules rules) throws ContradictionException, Failure {
            List<Tooth> named = new ArrayList<>();
            for (String tooth : teeth) {
                named.add(rules.views().tooth(tooth).orElseThrow(() -> unknown("tooth")));
            }
            View one = rules.views().view(view).orElseThrow(() -> unknown("view"));
            Optional<View> other = like.isPresent()
                    ? Optional.of(rules.views().view(like.get()).orElseThrow(() -> unknown("view")))
                    : Optional.empty();
            return rules.decided(one, capture, laid(), other, named, List.of());
        }

        private static Failure unknown(String thing) {
            return new Failure(Exit.BAD_DATA, "%s: it names a %s that is not in the catalogue.".formatted(WHAT, thing));
        }
    }

    /** Whether it is a proposal of who it is: nothing ties the photograph to its patient unless a person agrees. */
    boolean onlyProposesPatient() {
        return patient.isPresent()
                && grounds.stream().noneMatch(ground -> ground.about().equals("patient"));
    }

    /** What {@link Wrapping} needs; a decision that is not complete is refused. */
    Wrapping.Decisions decisions(ViewRules rules) throws Failure {
        if (patient.isEmpty() || shown.isEmpty()) {
            throw new Failure(
                    Exit.BAD_DATA, "%s: it says not both who and what is shown, so nothing is made.".formatted(WHAT));
        }
        try {
            return new Wrapping.Decisions(
                    patient.get(), shown.get().placement(rules), visit, Optional.empty(), clock, edition);
        } catch (ContradictionException e) {
            throw new Failure(Exit.FINDINGS, String.valueOf(e.getMessage()));
        }
    }

    DecisionText with(Patient other) {
        return new DecisionText(Optional.of(other), shown, visit, clock, grounds, edition);
    }

    DecisionText with(Shown other) {
        return new DecisionText(patient, Optional.of(other), visit, clock, grounds, edition);
    }

    DecisionText with(Visit other) {
        return new DecisionText(patient, shown, other, clock, grounds, edition);
    }

    DecisionText with(List<Ground> more) {
        List<Ground> all = new ArrayList<>(grounds);
        more.stream().filter(ground -> !all.contains(ground)).forEach(all::add);
        return new DecisionText(patient, shown, visit, clock, all, edition);
    }

    /** The same after objects were taken back that often. */
    DecisionText inEdition(int other) {
        return new DecisionText(patient, shown, visit, clock, grounds, other);
    }

    /** The text; the same decision gives the same text. */
    String json() {
        return DecisionWriter.write(this);
    }

    /**
     * Reads a text.
     *
     * @throws Failure if anything in it is not known, not allowed or of another version
     */
    static DecisionText read(String text) throws Failure {
        StrictObject all = StrictObject.of(WHAT, text);
        int version = all.number("version");
        if (version != VERSION && version != WITHOUT_ORIENTATION) {
            throw new Failure(
                    Exit.BAD_DATA,
                    "%s: is of version %d, and this program reads versions %d and %d; decide the photograph again."
                            .formatted(WHAT, version, WITHOUT_ORIENTATION, VERSION));
        }
        Optional<Patient> patient = all.has("patient") ? Optional.of(patient(all.object("patient"))) : Optional.empty();
        Optional<Shown> shown = all.has("shown") ? Optional.of(shown(all.object("shown"), version)) : Optional.empty();
        Visit visit = visit(all.object("visit"));
        Duration clock = Duration.ofSeconds(all.optionalNumber("clockSeconds").orElse(0));
        List<Ground> grounds = new ArrayList<>();
        for (StrictObject ground : all.objects("grounds")) {
            grounds.add(ground(ground));
        }
        int edition = all.optionalNumber("edition").orElse(0);
        all.end();
        return new DecisionText(patient, shown, visit, clock, grounds, edition);
    }

    static Patient patient(StrictObject object) throws Failure {
        Patient patient = new Patient(
                object.formed("id", text -> text(text, VR.LO), "a patient id"),
                object.optional("issuer", text -> text(text, VR.LO), "an issuer"),
                object.formed("name", PersonName::parse, "a name"),
                object.optional("birthDate", text -> Optional.of(LocalDate.parse(text)), "a day"),
                object.optional(
                        "sex", text -> text.matches("[MFO]") ? Optional.of(text) : Optional.empty(), "M, F or O"),
                object.has("otherIds") ? otherIds(object) : List.of());
        object.end();
        return patient;
    }

    private static List<Patient.OtherId> otherIds(StrictObject object) throws Failure {
        List<Patient.OtherId> ids = new ArrayList<>();
        for (StrictObject other : object.objects("otherIds")) {
            ids.add(new Patient.OtherId(
                    other.formed("id", text -> text(text, VR.LO), "a patient id"),
                    other.optional("issuer", text -> text(text, VR.LO), "an issuer")));
            other.end();
        }
        return ids;
    }

    private static Optional<String> text(String text, VR vr) {
        return text.isBlank() || TextForm.problem(vr, text).isPresent() ? Optional.empty() : Optional.of(text);
    }

    private static Optional<String> orientation(String text) {
        return Orientation.parse(text).filter(Orientation::legal).map(Orientation::toString);
    }

    private static Shown shown(StrictObject object, int version) throws Failure {
        Shown shown = new Shown(
                object.text("view"),
                object.optional("capture", Capture::parse, "a capture"),
                object.optional("correctBy", Correction::parse, "a correction"),
                version == WITHOUT_ORIENTATION
                        ? Optional.empty()
                        : object.optional("orientation", DecisionText::orientation, "a patient orientation"),
                object.optionalText("like"),
                object.has("teeth") ? object.texts("teeth") : List.of());
        object.end();
        return shown;
    }

    private static Visit visit(StrictObject object) throws Failure {
        Visit visit = new Visit(
                object.optional("study", Uid::parse, "a unique identifier"),
                object.optional("accession", text -> text(text, VR.SH), "an accession number"),
                object.optional("studyId", text -> text(text, VR.SH), "a study id"),
                object.optional("studyDate", text -> Optional.of(LocalDate.parse(text)), "a day"),
                object.optional("studyTime", text -> Optional.of(LocalTime.parse(text)), "a time of day"),
                object.optional("studyDescription", text -> text(text, VR.LO), "a description"),
                object.optional("referring", PersonName::parse, "a name"),
                object.optional("operator", PersonName::parse, "a name"),
                object.optional("series", Uid::parse, "a unique identifier"),
                object.optionalNumber("seriesNumber"),
                object.optional("seriesDescription", text -> text(text, VR.LO), "a description"),
                object.optional("protocol", text -> text(text, VR.LO), "a name"),
                object.optionalText("sitting"),
                object.optional("stage", Stage::parse, "a stage of treatment"),
                object.has("order") ? Optional.of(order(object.object("order"))) : Optional.empty(),
                object.optionalNumber("instanceNumber"));
        object.end();
        return visit;
    }

    private static Order order(StrictObject object) throws Failure {
        Order order = new Order(
                object.optional("study", Uid::parse, "a unique identifier"),
                object.optional("accession", text -> text(text, VR.SH), "an accession number"),
                object.optional("studyDate", text -> Optional.of(LocalDate.parse(text)), "a day"),
                object.optional("studyTime", text -> Optional.of(LocalTime.parse(text)), "a time of day"),
                object.optional("referring", PersonName::parse, "a name"),
                object.optional("procedureId", text -> text(text, VR.SH), "an id"),
                object.optional("procedure", text -> text(text, VR.LO), "a description"),
                object.has("procedureCode") ? Optional.of(code(object.object("procedureCode"))) : Optional.empty(),
                object.optional("stepId", text -> text(text, VR.SH), "an id"),
                object.optional("step", text -> text(text, VR.LO), "a description"),
                object.has("protocols") ? codes(object.objects("protocols")) : List.of(),
                object.optional("admission", text -> text(text, VR.LO), "an id"));
        object.end();
        return order;
    }

    private static List<Code> codes(List<StrictObject> objects) throws Failure {
        List<Code> codes = new ArrayList<>();
        for (StrictObject object : objects) {
            codes.add(code(object));
        }
        return codes;
    }

    private static Code code(StrictObject object) throws Failure {
        Code code = new Code(
                object.formed("value", text -> text(text, VR.SH), "a code"),
                object.formed("scheme", text -> text(text, VR.SH), "a coding scheme"),
                object.formed("meaning", text -> text(text, VR.LO), "a meaning"));
        object.end();
        return code;
    }

    private static Ground ground(StrictObject object) throws Failure {
        Ground ground = new Ground(
                object.text("about"),
                object.text("kind"),
                object.formed("at", text -> Optional.of(Instant.parse(text)), "a moment"),
                object.text("origin"));
        object.end();
        return ground;
    }
}
