package vestibule.bridge.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import vestibule.bridge.object.Standing;
import vestibule.bridge.object.Visit;
import vestibule.bridge.patient.Patient;
import vestibule.bridge.photo.Photo;
import vestibule.bridge.photo.PhotoException;
import vestibule.bridge.photo.Resemblance;
import vestibule.bridge.photo.SmallPicture;
import vestibule.bridge.view.Placement;
import vestibule.bridge.view.View;
import vestibule.dicom.data.Code;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.PersonName;
import vestibule.dicom.data.Uid;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;

/**
 * The object that a copy was made from: the copy names it, and lies in the same study (PS3.3 C.12.4, A.1.2).
 *
 * @param path where it is
 * @param object the object
 * @param standing what the copy says of it
 */
record CopySource(Path path, DataSet object, Standing standing) {

    private static final Pattern VIEW = Pattern.compile("(?:^|; )view=([^;]+)");

    static Optional<CopySource> of(Arguments arguments, Patient patient) throws Failure, IOException {
        Optional<Path> path = arguments.path("derived-from");
        if (path.isEmpty()) {
            if (arguments.has("derivation")) {
                throw new Failure(
                        Exit.USAGE, "--derivation says what was done to a copy, and --derived-from is missing.");
            }
            return Optional.empty();
        }
        String words = arguments.required("derivation", VR.ST).strip();
        DicomFile file = DicomFile.read(path.get());
        Uid sopClass = file.sopClass().orElseThrow(() -> unnamed(path.get()));
        Uid instance = file.sopInstance().orElseThrow(() -> unnamed(path.get()));
        DataSet object = file.dataSet();
        boolean samePatient = object.text(Attributes.PATIENT_ID).equals(Optional.of(patient.id()));
        Optional<String> issuer = object.text(Attributes.ISSUER_OF_PATIENT_ID);
        boolean sameIssuer = patient.issuer().isEmpty() || issuer.isEmpty() || issuer.equals(patient.issuer());
        if (!samePatient || !sameIssuer) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: is of another patient than the copy is said to be; one of the two is wrong."
                            .formatted(path.get()));
        }
        String sentence = words.endsWith(".") ? words : words + ".";
        return Optional.of(new CopySource(path.get(), object, new Standing.Copy(sopClass, instance, sentence)));
    }

    private static DicomFormatException unnamed(Path path) {
        return new DicomFormatException(path + " has no SOP Class UID or no SOP Instance UID, so no copy can name it");
    }

    /**
     * A copy shows what its source shows, and faces the way it does: one made from an uncorrected mirror picture would show the wrong side,
     * and one filed under another side would be taken for it.
     *
     * @param like the view whose direction a close-up or a stage shares
     */
    void checkSaid(Placement placement, Optional<View> like) throws Failure {
        List<String> orientation = object.texts(Attributes.PATIENT_ORIENTATION);
        boolean other = orientation.size() == 2
                && placement.orientation().isPresent()
                && !String.join("\\", orientation)
                        .equals(placement.orientation().get());
        if (said().contains("picture=uncorrected")) {
            throw refused(placement, "is the uncorrected picture of a mirror capture");
        }
        if (other) {
            throw refused(placement, "does not face the way of the view");
        }
        Optional<String> view = view();
        boolean named = view.equals(Optional.of(placement.view().id()));
        boolean shares = placement.view().mode() == View.Mode.INHERITED
                && like.map(View::id).equals(view);
        if (view.isPresent() && !named && !shares) {
            throw refused(placement, "is filed under the view " + view.get());
        }
        if (isOtherSide(placement, shares)) {
            throw refused(placement, "is filed with another side than the copy is said to show");
        }
        // The same view is the same place, however the practice coded it when the source was made
        if (view.isEmpty() && isOtherRegion(placement)) {
            throw refused(placement, "is filed with another part of the body than the copy is said to show");
        }
    }

    private String said() {
        return object.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION).orElse("");
    }

    private Optional<String> view() {
        Matcher view = VIEW.matcher(said());
        return view.find() ? Optional.of(view.group(1)) : Optional.empty();
    }

    /** A close-up of one side may be made of a picture of both. */
    private boolean isOtherSide(Placement placement, boolean closeUp) {
        Optional<String> side = object.text(Attributes.IMAGE_LATERALITY);
        return side.isPresent()
                && placement.laterality().isPresent()
                && !side.equals(placement.laterality())
                && !(closeUp && side.get().equals("B"));
    }

    private boolean isOtherRegion(Placement placement) {
        Optional<DataSet> region =
                object.items(Attributes.ANATOMIC_REGION_SEQUENCE).stream().findFirst();
        Optional<DataSet> side =
                region.flatMap(item -> item.items(Attributes.ANATOMIC_REGION_MODIFIER_SEQUENCE).stream()
                        .findFirst());
        return isOther(region, placement.region()) || isOther(side, placement.modifier());
    }

    /** Codes of different schemes cannot be compared. */
    private static boolean isOther(Optional<DataSet> item, Optional<Code> code) {
        return item.isPresent()
                && code.isPresent()
                && item.get()
                        .text(Attributes.CODING_SCHEME_DESIGNATOR)
                        .equals(Optional.of(code.get().scheme()))
                && !item.get()
                        .text(Attributes.CODE_VALUE)
                        .equals(Optional.of(code.get().value()));
    }

    private Failure refused(Placement placement, String why) {
        return new Failure(
                Exit.FINDINGS,
                "%s: %s, so a copy of it is not filed under the view %s; make the copy from the finished picture of that view."
                        .formatted(path, why, placement.view().id()));
    }

    /**
     * Looks whether the copy is made of the picture in the object and lies as that does; a copy is never turned here.
     *
     * @return what a person should look at, a sentence without a full stop
     */
    Optional<String> checkPicture(Path copy) throws Failure, IOException {
        Resemblance resemblance = Resemblance.of(SmallPicture.of(object), small(copy));
        if (resemblance instanceof Resemblance.Another) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: does not look like the picture in %s; name the object that it was made from, and make it of the whole picture."
                            .formatted(copy, path));
        }
        if (resemblance instanceof Resemblance.Otherwise otherwise) {
            throw new Failure(
                    Exit.FINDINGS,
                    "%s: lies otherwise than the picture in %s, and a copy is not turned here; lay it so first: vestibule turn %s OUT --by %s."
                            .formatted(copy, path, copy, TurnCommand.word(otherwise.putRight())));
        }
        return resemblance instanceof Resemblance.Unsaid unsaid
                ? Optional.of(
                        "whether the copy lies as the picture it was made of cannot be told (%s); look whether it does"
                                .formatted(unsaid.why()))
                : Optional.empty();
    }

    private static Optional<SmallPicture> small(Path copy) throws Failure, IOException {
        try {
            return SmallPicture.of(Photo.read(copy));
        } catch (PhotoException e) {
            throw new Failure(Exit.BAD_DATA, "%s: %s.".formatted(copy, e.getMessage()));
        }
    }

    /** The visit of the copy: what was said of it, else what stands in the object. */
    Visit visit(Visit said) {
        return new Visit(
                said.study().or(() -> object.text(Attributes.STUDY_INSTANCE_UID).flatMap(Uid::parse)),
                said.accession().or(() -> object.text(Attributes.ACCESSION_NUMBER)),
                said.studyId().or(() -> object.text(Attributes.STUDY_ID)),
                said.studyDate().or(this::day),
                said.studyTime().or(this::time),
                said.studyDescription().or(() -> object.text(Attributes.STUDY_DESCRIPTION)),
                said.referring()
                        .or(() ->
                                object.text(Attributes.REFERRING_PHYSICIAN_NAME).flatMap(PersonName::parse)),
                said.operator(),
                said.series(),
                said.seriesNumber(),
                said.seriesDescription(),
                said.protocol(),
                said.sitting(),
                said.stage(),
                said.order(),
                said.instanceNumber());
    }

    private Optional<LocalDate> day() {
        return object.text(Attributes.STUDY_DATE).flatMap(text -> {
            try {
                return Optional.of(LocalDate.parse(text, DateTimeFormatter.BASIC_ISO_DATE));
            } catch (DateTimeParseException unreadable) {
                return Optional.empty();
            }
        });
    }

    private Optional<LocalTime> time() {
        return object.text(Attributes.STUDY_TIME).flatMap(text -> {
            try {
                return Optional.of(LocalTime.parse(text, DateTimeFormatter.ofPattern("HHmmss")));
            } catch (DateTimeParseException unreadable) {
                return Optional.empty();
            }
        });
    }
}
