package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Value;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.jpeg.Jpeg;
import vestibule.dicom.jpeg.JpegLimits;
import vestibule.dicom.jpeg.SegmentKind;
import vestibule.samples.PhotoSize;
import vestibule.samples.SamplePatient;
import vestibule.samples.SamplePhoto;
import vestibule.samples.Samples;

@DisplayName("vestibule wrap")
class WrapCommandTest {

    private static final SamplePhoto TEETH = Samples.photo("zoe-teeth-front-occlusion");

    @TempDir
    Path folder;

    private Path photo(String id) throws IOException {
        Path file = folder.resolve(id + ".jpg");
        Files.write(file, Samples.jpeg(Samples.photo(id), PhotoSize.THUMBNAIL));
        return file;
    }

    private Ran wrap(Path photo, String... more) {
        List<String> words = new ArrayList<>(List.of("wrap", photo.toString(), "--out", out().toString()));
        words.addAll(List.of(more));
        if (!words.contains("--patient-id")) {
            words.addAll(List.of("--patient-id", "PG-0001", "--patient-name", "Exempel^Zoë^Åsa"));
        }
        if (!words.contains("--view")) {
            words.addAll(List.of("--view", "teeth-front-occlusion"));
        }
        return Ran.vestibule(words.toArray(String[]::new));
    }

    private Path out() {
        return folder.resolve("object.dcm");
    }

    private DataSet object() throws IOException {
        return DicomFile.read(out()).dataSet();
    }

    @Test
    @DisplayName("writes a VL Photographic Image with who, where, which side, when and with what")
    void writesTheWholeObject() throws IOException {
        Ran ran = wrap(
                photo(TEETH.id()),
                "--issuer",
                "PAINTED-GATE",
                "--birth-date",
                "1987-02-28",
                "--sex",
                "F",
                "--accession",
                "A-77",
                "--teeth",
                "11,21",
                "--instance-number",
                "4");
        assertThat(ran.err()).isEmpty();
        assertThat(ran.exit()).isZero();
        assertThat(ran.out().strip()).isEqualTo(out().toString());
        DataSet object = object();
        assertThat(object.text(Attributes.PATIENT_NAME)).contains("Exempel^Zoë^Åsa");
        assertThat(object.texts(Attributes.SPECIFIC_CHARACTER_SET)).containsExactly("ISO_IR 192");
        assertThat(object.text(Attributes.ISSUER_OF_PATIENT_ID)).contains("PAINTED-GATE");
        assertThat(object.text(Attributes.PATIENT_BIRTH_DATE)).contains("19870228");
        assertThat(object.text(Attributes.MODALITY)).contains("XC");
        assertThat(object.texts(Attributes.IMAGE_TYPE)).containsExactly("ORIGINAL", "PRIMARY");
        assertThat(object.texts(Attributes.PATIENT_ORIENTATION)).containsExactly("L", "F");
        assertThat(object.text(Attributes.IMAGE_LATERALITY)).contains("B");
        assertThat(object.contains(Attributes.LATERALITY)).isFalse();
        assertThat(object.items(Attributes.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE)).hasSize(2);
        assertThat(object.items(Attributes.ACQUISITION_CONTEXT_SEQUENCE)).isEmpty();
        assertThat(object.contains(Attributes.ACQUISITION_CONTEXT_SEQUENCE)).isTrue();
        assertThat(object.text(Attributes.PHOTOMETRIC_INTERPRETATION)).contains("YBR_FULL_422");
        assertThat(object.text(Attributes.LOSSY_IMAGE_COMPRESSION)).contains("01");
        assertThat(object.text(Attributes.MANUFACTURER)).contains("Okulara");
        assertThat(object.text(Attributes.ACQUISITION_DATE_TIME).orElseThrow())
                .startsWith(TEETH.taken().format(java.time.format.DateTimeFormatter.ofPattern("yyyyMMddHHmmss")));
    }

    @Test
    @DisplayName("carries the stream without metadata, and nothing after its end (PS3.5 8.2.1)")
    void streamIsClean() throws IOException {
        for (String id : Samples.photos().stream()
                .map(SamplePhoto::id)
                .filter(id -> id.startsWith("lea-"))
                .toList()) {
            Path photo = photo(id);
            Files.deleteIfExists(out());
            if (wrap(photo, "--capture", "direct").exit() != 0) {
                continue;
            }
            DicomFile file = DicomFile.read(out());
            assertThat(file.transferSyntax()).isEqualTo(TransferSyntax.JPEG_BASELINE);
            Value.Fragments pixels = (Value.Fragments)
                    file.dataSet().find(Attributes.PIXEL_DATA).orElseThrow().value();
            assertThat(pixels.fragments()).hasSize(1);
            Jpeg stream = Jpeg.read(pixels.fragments().get(0).bytes(1 << 24), JpegLimits.DEFAULT);
            assertThat(stream.trailingBytes()).as(id).isLessThanOrEqualTo(1);
            for (SegmentKind kind : List.of(SegmentKind.EXIF, SegmentKind.JFIF, SegmentKind.XMP, SegmentKind.COMMENT)) {
                assertThat(stream.has(kind)).as(id + " " + kind).isFalse();
            }
        }
    }

    private DataSet mirrored(String... more) throws IOException {
        Path file = folder.resolve("odd.jpg");
        Files.write(file, Samples.jpeg(Samples.photo("zoe-occlusal-maxillary-mirror"), new PhotoSize(320, 250)));
        List<String> words =
                new ArrayList<>(List.of("--view", "occlusal-maxillary-mirror", "--capture", "mirror-front"));
        words.addAll(List.of(more));
        Ran ran = wrap(file, words.toArray(String[]::new));
        assertThat(ran.exit()).as(ran.err()).isZero();
        return object();
    }

    @Test
    @DisplayName("trims a mirror picture where that is allowed, says so, and calls it derived (trade facts F-53)")
    void trimsWhereAllowed() throws IOException {
        DataSet object = mirrored("--edge", "trim");
        assertThat(object.integer(Attributes.ROWS)).contains(240L);
        assertThat(object.text(Attributes.DERIVATION_DESCRIPTION).orElseThrow())
                .contains("flipped top-bottom")
                .contains("10 rows at the bottom edge");
        assertThat(object.texts(Attributes.IMAGE_TYPE)).containsExactly("DERIVED", "PRIMARY");
        assertThat(object.contains(Attributes.SOURCE_IMAGE_SEQUENCE)).isFalse();
    }

    @Test
    @DisplayName(
            "files a mirror picture alone as an original with its history (trade facts F-49), and says what is not kept")
    void mirrorAlone() throws IOException {
        Ran ran = wrap(
                photo("zoe-occlusal-mandibular-mirror"),
                "--view",
                "occlusal-mandibular-mirror",
                "--capture",
                "mirror-front");
        assertThat(ran.exit()).isZero();
        assertThat(ran.err()).contains("--raw-out FILE keeps it");
        DataSet object = object();
        assertThat(object.texts(Attributes.IMAGE_TYPE)).containsExactly("ORIGINAL", "PRIMARY");
        assertThat(object.texts(Attributes.PATIENT_ORIENTATION)).containsExactly("L", "A");
        assertThat(object.text(Attributes.DERIVATION_DESCRIPTION).orElseThrow()).contains("by mirror");
        assertThat(object.text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION))
                .contains(
                        "view=occlusal-mandibular-mirror; capture=mirror-front; picture=corrected; correction=flip-vertical");
    }

    @Test
    @DisplayName("keeps the picture as recorded where the camera was rolled, and takes another of the four corrections")
    void rolledCamera() throws IOException {
        Path raw = folder.resolve("raw.dcm");
        DataSet object = mirrored("--correct-by", "transpose", "--raw-out", raw.toString());
        assertThat(object.texts(Attributes.PATIENT_ORIENTATION)).containsExactly("L", "P");
        assertThat(object.integer(Attributes.COLUMNS)).contains(250L);
        assertThat(DicomFile.read(raw).dataSet().texts(Attributes.PATIENT_ORIENTATION))
                .containsExactly("P", "L");
    }

    @Test
    @DisplayName("says that there is no second object where nothing had to be turned")
    void nothingToTurn() throws IOException {
        Path raw = folder.resolve("raw.dcm");
        Ran ran = wrap(photo(TEETH.id()), "--raw-out", raw.toString());
        assertThat(ran.exit()).isZero();
        assertThat(ran.err()).contains("no second object");
        assertThat(raw).doesNotExist();
        assertThat(object().contains(Attributes.DERIVATION_DESCRIPTION)).isFalse();
    }

    @Test
    @DisplayName("codes a progressive picture again as baseline, and says so (PS3.5 A.4.1)")
    void progressive() throws IOException {
        assertThat(wrap(photo("nina-smile-front"), "--view", "smile-front").exit())
                .isZero();
        Value.Fragments pixels = (Value.Fragments)
                object().find(Attributes.PIXEL_DATA).orElseThrow().value();
        Jpeg stream = Jpeg.read(pixels.fragments().get(0).bytes(1 << 24), JpegLimits.DEFAULT);
        assertThat(stream.fitness().fits()).isTrue();
        assertThat(object().text(Attributes.DERIVATION_DESCRIPTION).orElseThrow())
                .contains("coefficients unchanged");
        assertThat(object().texts(Attributes.IMAGE_TYPE)).containsExactly("ORIGINAL", "PRIMARY");
    }

    @Test
    @DisplayName(
            "carries the profile as an attribute of the input class, and none in the stream (PS3.3 C.11.15.1.1; PS3.5 8.2.1)")
    void profile() throws IOException {
        assertThat(wrap(photo("nina-teeth-buccal-right-direct"), "--view", "teeth-buccal-right-direct")
                        .exit())
                .isZero();
        Value.Binary profile = (Value.Binary)
                object().find(Attributes.ICC_PROFILE).orElseThrow().value();
        assertThat(java.awt.color.ICC_Profile.getInstance(profile.bulk().bytes(1 << 20))
                        .getProfileClass())
                .isEqualTo(java.awt.color.ICC_Profile.CLASS_INPUT);
        assertThat(object().text(Attributes.COLOR_SPACE)).contains("SRGB");
        Value.Fragments pixels = (Value.Fragments)
                object().find(Attributes.PIXEL_DATA).orElseThrow().value();
        assertThat(Jpeg.read(pixels.fragments().get(0).bytes(1 << 24), JpegLimits.DEFAULT)
                        .has(SegmentKind.ICC_PROFILE))
                .isFalse();
    }

    @Test
    @DisplayName("keeps place, owner and serials only if the settings ask (trade facts F-65)")
    void privateNotes() throws IOException {
        Path photo = photo("myron-face-front-rest-lips-apart");
        List<vestibule.dicom.data.Attribute> privateNotes =
                List.of(Attributes.CAMERA_OWNER_NAME, Attributes.GPS_LATITUDE, Attributes.GPS_LONGITUDE);
        assertThat(wrap(photo, "--view", "face-front-rest-lips-apart").exit()).isZero();
        assertThat(privateNotes).noneMatch(object()::contains);
        Files.delete(out());
        Path config = Files.writeString(
                folder.resolve("settings.toml"),
                "[keep]\nplace = true\nowner = true\nserials = true\nmaker-notes = true\n");
        Ran ran = wrap(photo, "--view", "face-front-rest-lips-apart", "--config", config.toString());
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(privateNotes).allMatch(object()::hasValue);
    }

    @Test
    @DisplayName("links an annotated copy to the object it was made from, in its study (trade facts F-51, F-52)")
    void derivedCopy() throws IOException {
        wrap(photo(TEETH.id()));
        Path source = folder.resolve("source.dcm");
        Files.move(out(), source);
        Ran ran = wrap(
                photo(TEETH.id()),
                "--derived-from",
                source.toString(),
                "--derivation",
                "Gingiva greyed for shade taking");
        assertThat(ran.exit()).as(ran.err()).isZero();
        DataSet original = DicomFile.read(source).dataSet();
        assertThat(object().texts(Attributes.IMAGE_TYPE)).containsExactly("DERIVED", "PRIMARY");
        assertThat(object().text(Attributes.DERIVATION_DESCRIPTION)).contains("Gingiva greyed for shade taking.");
        assertThat(object().text(Attributes.STUDY_INSTANCE_UID))
                .isEqualTo(original.text(Attributes.STUDY_INSTANCE_UID));
        DataSet item = object().items(Attributes.SOURCE_IMAGE_SEQUENCE).get(0);
        assertThat(item.text(Attributes.REFERENCED_SOP_INSTANCE_UID))
                .isEqualTo(original.text(Attributes.SOP_INSTANCE_UID));
        assertThat(item.contains(Attributes.SPATIAL_LOCATIONS_PRESERVED)).isFalse();
        Files.delete(out());
        Ran other = wrap(
                photo(TEETH.id()),
                "--derived-from",
                source.toString(),
                "--derivation",
                "Annotated",
                "--patient-id",
                "PG-0002",
                "--patient-name",
                "Other^One");
        assertThat(other.exit()).isEqualTo(1);
        assertThat(other.err()).contains("is of another patient");
        assertThat(out()).doesNotExist();
    }

    @Test
    @DisplayName("never flips a copy again, and takes none of an uncorrected picture (trade facts F-61)")
    void copyOfAMirrorPicture() throws IOException {
        Path raw = folder.resolve("raw.dcm");
        mirrored("--raw-out", raw.toString());
        Path corrected = folder.resolve("corrected.dcm");
        Files.move(out(), corrected);
        String[] words = {
            "--view",
            "occlusal-maxillary-mirror",
            "--capture",
            "mirror-front",
            "--derivation",
            "Annotated",
            "--derived-from"
        };
        Value.Fragments pixels = (Value.Fragments) DicomFile.read(corrected)
                .dataSet()
                .find(Attributes.PIXEL_DATA)
                .orElseThrow()
                .value();
        Path copy = Files.write(
                folder.resolve("copy.jpg"), pixels.fragments().get(0).bytes(1 << 24));
        Ran ran = wrap(
                copy,
                Stream.concat(Stream.of(words), Stream.of(corrected.toString())).toArray(String[]::new));
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(object().texts(Attributes.PATIENT_ORIENTATION)).containsExactly("L", "P");
        assertThat(object().text(Attributes.DERIVATION_DESCRIPTION)).contains("Annotated.");
        Files.delete(out());
        Ran refused = wrap(
                copy, Stream.concat(Stream.of(words), Stream.of(raw.toString())).toArray(String[]::new));
        assertThat(refused.exit()).isEqualTo(1);
        assertThat(refused.err()).contains("uncorrected picture of a mirror capture");
        assertThat(out()).doesNotExist();
    }

    @Test
    @DisplayName("makes the same object every time, and another one for another decision")
    void isAPureFunction() throws IOException {
        Path photo = photo(TEETH.id());
        wrap(photo);
        byte[] first = Files.readAllBytes(out());
        Files.delete(out());
        wrap(photo);
        assertThat(Files.readAllBytes(out())).isEqualTo(first);
        String uid = object().text(Attributes.SOP_INSTANCE_UID).orElseThrow();
        Files.delete(out());
        wrap(photo, "--teeth", "11");
        assertThat(object().text(Attributes.SOP_INSTANCE_UID)).isNotEqualTo(java.util.Optional.of(uid));
    }

    @Test
    @DisplayName("puts photographs of one patient, day and camera into one study and series")
    void oneStudyForEachVisit() throws IOException {
        wrap(photo("zoe-teeth-front-occlusion"));
        DataSet first = object();
        Files.delete(out());
        wrap(photo("zoe-teeth-buccal-left-direct"), "--view", "teeth-buccal-left-direct");
        DataSet second = object();
        assertThat(second.text(Attributes.STUDY_INSTANCE_UID)).isEqualTo(first.text(Attributes.STUDY_INSTANCE_UID));
        assertThat(second.text(Attributes.SERIES_INSTANCE_UID)).isEqualTo(first.text(Attributes.SERIES_INSTANCE_UID));
        assertThat(second.text(Attributes.SOP_INSTANCE_UID)).isNotEqualTo(first.text(Attributes.SOP_INSTANCE_UID));
    }

    static Stream<SamplePatient> patients() {
        return Samples.patients().stream();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("patients")
    @DisplayName("keeps names of every script unchanged (PS3.5 6.2.1; PS3.3 C.12.1.1.2)")
    void namesOfEveryScript(SamplePatient patient) throws IOException {
        Ran ran = wrap(photo(TEETH.id()), "--patient-id", patient.id(), "--patient-name", patient.name());
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(object().text(Attributes.PATIENT_NAME)).contains(patient.name());
        assertThat(object().text(Attributes.PATIENT_ID)).contains(patient.id());
    }

    @Nested
    @DisplayName("refuses, and leaves no file,")
    class Refuses {

        @ParameterizedTest(name = "{0}: exit {3}")
        @DisplayName("what contradicts itself, or would lose its edge with no raw picture beside it")
        @CsvSource({
            "zoe-occlusal-maxillary-mirror, teeth-front-occlusion, mirror-front, 1, one of the two is wrong",
            "zoe-tooth-closeup, tooth-closeup, mirror-front, 1, depends on the view it is like",
        })
        void contradictions(String id, String view, String capture, int exit, String words) throws IOException {
            refused(wrap(photo(id), "--view", view, "--capture", capture), exit, words);
        }

        @Test
        @DisplayName("a turn that would leave rows off, with the amount, where the raw picture is not kept beside")
        void edgeWouldBeLost() throws IOException {
            Path file = folder.resolve("odd.jpg");
            Files.write(file, Samples.jpeg(Samples.photo("zoe-occlusal-maxillary-mirror"), new PhotoSize(320, 250)));
            Ran ran = wrap(file, "--view", "occlusal-maxillary-mirror", "--capture", "mirror-front");
            refused(ran, 65, "10 rows at the bottom edge would have to be left off");
            refused(wrap(photo(TEETH.id()), "--correct-by", "rotate-180"), 2, "turn-90, turn-180 or turn-270");
            refused(
                    wrap(
                            photo("zoe-occlusal-maxillary-mirror"),
                            "--view",
                            "occlusal-maxillary-mirror",
                            "--capture",
                            "mirror-front",
                            "--correct-by",
                            "turn-180"),
                    1,
                    "no turn (turn-180) puts it right");
            refused(wrap(photo(TEETH.id()), "--correct-by", "flip-vertical"), 1, "never mirrored");
        }

        @Test
        @DisplayName("a photograph older than its patient, or from the future")
        void datesThatCannotBe() throws IOException {
            refused(wrap(photo(TEETH.id()), "--birth-date", "2031-01-01"), 1, "before the patient was born");
        }

        @Test
        @DisplayName("what is no JPEG, or no file")
        void noJpeg() throws IOException {
            refused(wrap(Files.writeString(folder.resolve("x.jpg"), "no picture")), 65, "x.jpg");
            refused(wrap(folder.resolve("missing.jpg")), 74, "is not there");
            refused(wrap(folder), 74, "is not there, or is no ordinary file");
        }

        @ParameterizedTest(name = "{0} {1}")
        @DisplayName("words of another form, without repeating what may name a patient")
        @CsvSource({
            "--view, teeth-upside-down, 2, there is no view",
            "--patient-name, A=B=C=D, 2, expected a name",
            "--birth-date, 28.2.1987, 2, YYYY-MM-DD",
            "--sex, X, 2, 'M, F or O'",
            "--teeth, 19, 2, is no tooth",
            "--study-uid, 1.02, 2, unique identifier",
            "--accession, A NUMBER THAT IS FAR TOO LONG, 2, at most 16",
            "--capture, upside-down, 2, mirror-front",
        })
        void wrongWords(String option, String value, int exit, String words) throws IOException {
            String[] more = option.equals("--patient-name")
                    ? new String[] {"--patient-id", "1", option, value}
                    : new String[] {option, value};
            refused(wrap(photo(TEETH.id()), more), exit, words);
        }

        @Test
        @DisplayName("a target that is there already, and keeps it")
        void existingTarget() throws IOException {
            Files.writeString(out(), "precious");
            Ran ran = wrap(photo(TEETH.id()));
            assertThat(ran.exit()).isEqualTo(74);
            assertThat(ran.err()).contains("is there already");
            assertThat(out()).hasContent("precious");
        }

        private void refused(Ran ran, int exit, String words) throws IOException {
            assertThat(ran.err()).contains(words);
            assertThat(ran.err().strip().lines()).as("one plain sentence").hasSize(1);
            assertThat(ran.exit()).isEqualTo(exit);
            assertThat(ran.out()).isEmpty();
            try (Stream<Path> files = Files.list(folder)) {
                assertThat(files.map(file -> String.valueOf(file.getFileName())))
                        .noneMatch(name -> name.endsWith(".dcm") || name.endsWith(".part"));
            }
        }
    }

    @Test
    @DisplayName("takes practice, zone and issuer from the settings file")
    void settings() throws IOException {
        Path config = Files.writeString(
                folder.resolve("settings.toml"),
                "[practice]\nname = \"Practice at the Painted Gate\"\nissuer = \"PAINTED-GATE\"\nzone = \"+03:00\"\n");
        String withoutOffset = Samples.photos().stream()
                .filter(photo -> photo.traits().contains(SamplePhoto.Trait.NO_OFFSET) && photo.exifOrientation() == 1)
                .map(SamplePhoto::id)
                .findFirst()
                .orElseThrow();
        Ran ran = wrap(photo(withoutOffset), "--config", config.toString());
        assertThat(ran.exit()).as(ran.err()).isZero();
        assertThat(object().text(Attributes.INSTITUTION_NAME)).contains("Practice at the Painted Gate");
        assertThat(object().text(Attributes.ISSUER_OF_PATIENT_ID)).contains("PAINTED-GATE");
        assertThat(object().text(Attributes.TIMEZONE_OFFSET_FROM_UTC)).contains("+0300");
    }

    @ParameterizedTest(name = "{0}, capture {1}")
    @DisplayName(
            "F-61: a camera or a folder of which the settings say that it mirrors back is known, and nothing is flipped twice")
    @CsvSource({"C2007781, ''", "C2007781, mirror-front", "FOLDER, ''", "FOLDER, mirror-behind"})
    void mirroredBack(String known, String capture) throws IOException {
        Path config = Files.writeString(
                folder.resolve("settings.toml"),
                "[views]\nmirror = \"front\"\n[views.mirror-of]\n'%s' = \"in-camera\"\n"
                        .formatted(
                                known.equals("FOLDER") ? folder.toAbsolutePath().normalize() : known));
        List<String> words =
                new ArrayList<>(List.of("--view", "occlusal-maxillary-mirror", "--config", config.toString()));
        if (!capture.isEmpty()) {
            words.addAll(List.of("--capture", capture));
        }
        Ran ran = wrap(photo("zoe-occlusal-maxillary-mirror"), words.toArray(String[]::new));
        if (capture.isEmpty()) {
            assertThat(ran.exit()).as(ran.err()).isZero();
            assertThat(object().text(Attributes.ACQUISITION_CONTEXT_DESCRIPTION).orElse(""))
                    .contains("capture=mirror-flipped");
        } else {
            assertThat(ran.exit()).isEqualTo(1);
            assertThat(ran.err()).contains("mirror-flipped", "correct-by");
            assertThat(out()).doesNotExist();
        }
    }

    @Test
    @DisplayName("wrong settings stop it with exit 78")
    void wrongSettings() throws IOException {
        Path config = Files.writeString(folder.resolve("settings.toml"), "practise = 1\n");
        Ran ran = wrap(photo(TEETH.id()), "--config", config.toString());
        assertThat(ran.exit()).isEqualTo(78);
        assertThat(ran.err()).contains("practise is not known");
    }

    @Test
    @DisplayName("--help prints what it takes, on standard output")
    void help() {
        Ran ran = Ran.vestibule("wrap", "--help");
        assertThat(ran.exit()).isZero();
        assertThat(ran.out()).contains("--patient-id", "--view", "Not a medical device");
        assertThat(Arrays.asList(Ran.vestibule("--help").out().split("\n"))).anyMatch(line -> line.contains("wrap"));
    }
}
