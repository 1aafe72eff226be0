package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.samples.Capture;
import vestibule.samples.Mark;
import vestibule.samples.PhotoSize;
import vestibule.samples.SamplePhoto;
import vestibule.samples.SamplePhoto.Trait;
import vestibule.samples.Samples;

@DisplayName("Every sample photograph, wrapped with its raw picture beside it")
class FinishedPicturesTest {

    /** The height is not a whole number of 16 x 16 blocks, so that edges have to be trimmed. */
    private static final PhotoSize SIZE = new PhotoSize(480, 360);

    @TempDir
    Path folder;

    static Stream<SamplePhoto> photos() {
        return Samples.photos().stream();
    }

    private Path at(String name) {
        return folder.resolve(name);
    }

    private void wrap(SamplePhoto photo) throws IOException {
        Files.write(at("photo.jpg"), Samples.jpeg(photo, SIZE));
        List<String> words = new ArrayList<>(List.of(
                "wrap",
                at("photo.jpg").toString(),
                "--out",
                at("object.dcm").toString(),
                "--raw-out",
                at("raw.dcm").toString(),
                "--view",
                photo.view(),
                "--capture",
                photo.capture().label(),
                "--patient-id",
                photo.patient().id(),
                "--patient-name",
                photo.patient().name()));
        if (List.of("tooth-closeup", "treatment-stage").contains(photo.view())) {
            words.addAll(List.of(
                    "--like", photo.view().equals("tooth-closeup") ? "teeth-front-occlusion" : "teeth-front-apart"));
        }
        Ran ran = Ran.vestibule(words.toArray(String[]::new));
        assertThat(ran.exit()).as(ran.err()).isZero();
    }

    private static BufferedImage picture(DataSet object) throws IOException {
        Value.Fragments pixels = (Value.Fragments)
                object.find(Attributes.PIXEL_DATA).orElseThrow().value();
        return ImageIO.read(new ByteArrayInputStream(pixels.fragments().get(0).bytes(1 << 24)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("photos")
    @DisplayName(
            "has Patient Orientation, marks and coefficients of the finished picture, and those of the recorded one in the raw object")
    void finishedAndRaw(SamplePhoto photo) throws IOException {
        wrap(photo);
        DataSet object = DicomFile.read(at("object.dcm")).dataSet();
        assertThat(String.join("\\", object.texts(Attributes.PATIENT_ORIENTATION)))
                .isEqualTo(photo.finalOrientation());
        checkMarks(photo, photo.finalOrientation(), picture(object));

        boolean turned = photo.exifOrientation() != 1 || photo.capture() != Capture.DIRECT;
        assertThat(Files.exists(at("raw.dcm"))).isEqualTo(turned);
        if (turned) {
            DataSet raw = DicomFile.read(at("raw.dcm")).dataSet();
            assertThat(String.join("\\", raw.texts(Attributes.PATIENT_ORIENTATION)))
                    .isEqualTo(photo.storedOrientation());
            checkMarks(photo, photo.storedOrientation(), picture(raw));
            checkLinked(object, raw);
        }
        checkAgainstReference(photo, object);
    }

    /** Its coefficients are those of the photograph as the reference turns them. */
    private void checkAgainstReference(SamplePhoto photo, DataSet object) throws IOException {
        Value.Fragments pixels = (Value.Fragments)
                object.find(Attributes.PIXEL_DATA).orElseThrow().value();
        Files.write(at("ours.jpg"), pixels.fragments().get(0).bytes(1 << 24));
        List<String> command = new ArrayList<>(List.of("jpegtran", "-trim"));
        command.addAll(reference(photo));
        command.add(at("photo.jpg").toString());
        Files.write(
                at("theirs.jpg"), PeerTools.run(command.toArray(String[]::new)).orElseThrow());
        assertThat(PeerTools.samples(at("ours.jpg"))).isEqualTo(PeerTools.samples(at("theirs.jpg")));
    }

    /** What the reference is asked for: the camera's note (Exif 2.3 4.6.4), or the flip of trade facts F-10 to F-13. */
    private static List<String> reference(SamplePhoto photo) {
        if (photo.capture() == Capture.DIRECT) {
            return switch (photo.exifOrientation()) {
                case 2 -> List.of("-flip", "horizontal");
                case 3 -> List.of("-rotate", "180");
                case 4 -> List.of("-flip", "vertical");
                case 5 -> List.of("-transpose");
                case 6 -> List.of("-rotate", "90");
                case 7 -> List.of("-transverse");
                case 8 -> List.of("-rotate", "270");
                default -> List.of();
            };
        }
        assertThat(photo.exifOrientation()).isOne();
        boolean occlusal = photo.view().startsWith("occlusal");
        boolean front = photo.capture() == Capture.MIRROR_FRONT;
        return List.of("-flip", occlusal == front ? "vertical" : "horizontal");
    }

    /** Trade facts F-48, F-49; PS3.3 C.7.6.1.1.2 and C.12.4. */
    private static void checkLinked(DataSet object, DataSet raw) {
        assertThat(object.texts(Attributes.IMAGE_TYPE)).containsExactly("DERIVED", "PRIMARY");
        assertThat(raw.texts(Attributes.IMAGE_TYPE)).containsExactly("ORIGINAL", "PRIMARY");
        assertThat(raw.text(Attributes.IMAGE_COMMENTS).orElseThrow()).contains("UNCORRECTED");
        assertThat(raw.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION).orElseThrow())
                .contains("picture=uncorrected");
        DataSet source = object.items(Attributes.SOURCE_IMAGE_SEQUENCE).get(0);
        assertThat(source.text(Attributes.REFERENCED_SOP_INSTANCE_UID))
                .isEqualTo(raw.text(Attributes.SOP_INSTANCE_UID));
        assertThat(source.items(Attributes.PURPOSE_OF_REFERENCE_CODE_SEQUENCE)
                        .get(0)
                        .text(Attributes.CODE_VALUE))
                .contains("121322");
        String derivation = object.text(Attributes.DERIVATION_DESCRIPTION).orElseThrow();
        boolean trimmed = !List.of(
                        object.integer(Attributes.ROWS).orElseThrow(),
                        object.integer(Attributes.COLUMNS).orElseThrow())
                .containsAll(List.of(
                        raw.integer(Attributes.ROWS).orElseThrow(),
                        raw.integer(Attributes.COLUMNS).orElseThrow()));
        if (trimmed) {
            assertThat(derivation).containsPattern("left off: [0-9]+ (rows|columns) at the");
            assertThat(source.contains(Attributes.SPATIAL_LOCATIONS_PRESERVED)).isFalse();
            assertThat(source.contains(Attributes.PATIENT_ORIENTATION)).isFalse();
        } else {
            assertThat(derivation).doesNotContain("left off");
            assertThat(source.text(Attributes.SPATIAL_LOCATIONS_PRESERVED)).contains("REORIENTED_ONLY");
            assertThat(source.texts(Attributes.PATIENT_ORIENTATION))
                    .isEqualTo(raw.texts(Attributes.PATIENT_ORIENTATION));
        }
        for (var shared :
                List.of(Attributes.STUDY_INSTANCE_UID, Attributes.SERIES_INSTANCE_UID, Attributes.IMAGE_LATERALITY)) {
            assertThat(object.text(shared)).isEqualTo(raw.text(shared));
        }
    }

    /** A mark, and how far it must lie towards a direction. */
    private record Expected(Mark mark, char towards, double atLeast) {}

    private static void checkMarks(SamplePhoto photo, String orientation, BufferedImage picture) {
        if (photo.traits().contains(Trait.GREY)) {
            return;
        }
        for (Expected expected : expected(photo.view())) {
            Optional<Mark.Found> found = expected.mark().find(picture);
            assertThat(found).as("%s in %s", expected.mark(), orientation).isPresent();
            assertThat(found.get().towards(expected.towards(), orientation))
                    .as("%s towards %s in %s, found at %s", expected.mark(), expected.towards(), orientation, found)
                    .isGreaterThan(expected.atLeast());
        }
    }

    /** What each view must show, from anatomy alone. */
    private static List<Expected> expected(String view) {
        if (view.startsWith("face-front")) {
            return List.of(new Expected(Mark.BIRTHMARK, 'R', 0.55));
        }
        if (view.equals("smile-front") || view.startsWith("teeth-front")) {
            return List.of(new Expected(Mark.JEWEL, 'R', 0.6), new Expected(Mark.GOLD, 'R', 0.75));
        }
        if (view.startsWith("teeth-buccal-right")) {
            return List.of(new Expected(Mark.GOLD, 'P', 0.5), new Expected(Mark.JEWEL, 'A', 0.75));
        }
        if (view.startsWith("teeth-buccal-left")) {
            return List.of(new Expected(Mark.AMALGAM, 'P', 0.5), new Expected(Mark.AMALGAM, 'F', 0.5));
        }
        if (view.equals("occlusal-maxillary-mirror")) {
            return List.of(new Expected(Mark.GOLD, 'R', 0.6), new Expected(Mark.JEWEL, 'A', 0.7));
        }
        if (view.equals("occlusal-mandibular-mirror")) {
            return List.of(new Expected(Mark.AMALGAM, 'L', 0.6), new Expected(Mark.AMALGAM, 'P', 0.5));
        }
        return List.of();
    }
}
