package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.bridge.delivery.ArchiveSession;
import vestibule.bridge.delivery.Destination;
import vestibule.bridge.delivery.DestinationException;
import vestibule.bridge.delivery.ReadBack;
import vestibule.bridge.object.RejectionNote;
import vestibule.dicom.data.Attribute;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.VR;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Dictionary;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.net.Deadlines;
import vestibule.samples.PhotoSize;
import vestibule.samples.Samples;

@DisplayName("Reading back: an object is the same only if whose, which side, which way round and what it shows are")
class ReadBackTest {

    private static final String TEETH = "zoe-teeth-front-occlusion";

    @TempDir
    Path folder;

    private Path wrapped(String... more) throws IOException {
        Path photo = Files.write(folder.resolve("one.jpg"), Samples.jpeg(Samples.photo(TEETH), PhotoSize.THUMBNAIL));
        Path out = folder.resolve("sent.dcm");
        Ran ran = Ran.vestibule(Stream.concat(
                        Stream.of("wrap", photo.toString(), "--out", out.toString(), "--patient-id", "PG-0001"),
                        Stream.of(more))
                .toArray(String[]::new));
        assertThat(ran.exit()).as(ran.err()).isZero();
        return out;
    }

    private Path wrapped() throws IOException {
        return wrapped("--patient-name", "Exempel^Zoë", "--view", "teeth-buccal-right-direct");
    }

    /** What comes of it if the archive changes so what it keeps. */
    private ReadBack.Outcome outcome(Path ours, Consumer<DataSet.Builder> change) throws IOException {
        Path own = Files.createTempDirectory(folder, "practice");
        try (EmbeddedArchive archive = PracticeFolder.archive(own)) {
            String url = "dicom://127.0.0.1:%d/ARCHIVE".formatted(archive.port());
            Ran sent = Ran.vestibule("send", ours.toString(), "--to", url);
            assertThat(sent.exit()).as(sent.err()).isZero();
            try (Stream<Path> files = Files.walk(own.resolve("archive"))) {
                Path kept = files.filter(file -> file.toString().endsWith(".dcm"))
                        .findFirst()
                        .orElseThrow();
                DicomFile file = DicomFile.read(kept);
                DataSet.Builder changed = file.dataSet().toBuilder();
                change.accept(changed);
                Path next = kept.resolveSibling("next");
                DicomFile.write(next, changed.build(), file.transferSyntax());
                Files.move(next, kept, StandardCopyOption.REPLACE_EXISTING);
            }
            ArchiveSession.Line line = new ArchiveSession.Line(Destination.parse(url), "VESTIBULE", Deadlines.DEFAULT);
            return new ReadBack(line).compare(DicomFile.read(ours), Files.createDirectories(own.resolve("fetched")));
        } catch (DestinationException e) {
            throw new AssertionError(e);
        }
    }

    private static void differs(ReadBack.Outcome outcome, String words, boolean patient) {
        assertThat(outcome).isInstanceOf(ReadBack.Outcome.Different.class);
        ReadBack.Outcome.Different different = (ReadBack.Outcome.Different) outcome;
        assertThat(different.what()).contains(words).doesNotContain("PG-0001", "Exempel", "EXEMPEL");
        assertThat(different.patient()).isEqualTo(patient);
    }

    @ParameterizedTest(name = "{0} is {1}")
    @DisplayName("what is kept with another value, or none where we sent one, is not the same")
    @CsvSource({
        "PatientID, PG-0002, another patient's data",
        "PatientID, , another patient's data",
        "PatientName, Exempel^Mio, another patient's data",
        "PatientName, , another patient's data",
        "StudyInstanceUID, 1.2.3, another study",
        "SeriesInstanceUID, 1.2.3, another study or series",
        "PatientOrientation, R P, another side",
        "PatientOrientation, , another side",
        "ImageLaterality, L, another side",
        "ImageLaterality, , another side",
        "Laterality, L, another side",
        "AnatomicRegionSequence, , part of the body",
        "PrimaryAnatomicStructureSequence, , part of the body",
        "ImageType, DERIVED PRIMARY, another view",
        "AcquisitionContextDescription, view=teeth-buccal-left-direct, another view",
        "AcquisitionContextDescription, , another view",
        "DerivationDescription, Flipped, another account",
        "Rows, 8, sizes",
        "PhotometricInterpretation, RGB, colours",
        "ICCProfile, , colours",
    })
    void different(String keyword, String value, String words) throws IOException {
        Attribute attribute = Dictionary.standard().find(keyword).orElseThrow().attribute();
        Path ours = wrapped();
        differs(
                outcome(ours, kept -> {
                    if (value == null) {
                        kept.putEmpty(attribute);
                    } else if (attribute.vr() == VR.US) {
                        kept.put(attribute, Integer.parseInt(value));
                    } else {
                        kept.put(attribute, value.split(" ", -1));
                    }
                }),
                words,
                words.contains("patient"));
    }

    @Test
    @DisplayName("what was taken out, or has another side or profile within, is not the same")
    void within() throws IOException {
        Path ours = wrapped();
        DataSet region = DicomFile.read(ours)
                .dataSet()
                .items(Attributes.ANATOMIC_REGION_SEQUENCE)
                .get(0);
        differs(outcome(ours, kept -> kept.remove(Attributes.PATIENT_ID)), "PatientID", true);
        differs(
                outcome(
                        ours,
                        kept -> kept.put(
                                Attributes.ANATOMIC_REGION_SEQUENCE,
                                List.of(region.toBuilder()
                                        .put(
                                                Attributes.ANATOMIC_REGION_MODIFIER_SEQUENCE,
                                                List.of(DataSet.builder()
                                                        .put(Attributes.CODE_VALUE, "7771000")
                                                        .put(Attributes.CODING_SCHEME_DESIGNATOR, "SCT")
                                                        .put(Attributes.CODE_MEANING, "Left")
                                                        .build()))
                                        .build()))),
                "AnatomicRegionSequence",
                false);
        differs(
                outcome(ours, kept -> kept.put(Attributes.ICC_PROFILE, Bulk.of(new byte[] {1, 2, 3, 4}))),
                "ICCProfile",
                false);
    }

    @Test
    @DisplayName(
            "what we left empty and the archive filled in, its own character set and further attributes are the same")
    void same() throws IOException {
        assertThat(outcome(
                        wrapped(),
                        kept -> kept.put(Attributes.PATIENT_BIRTH_DATE, "19870228")
                                .put(Attributes.ISSUER_OF_PATIENT_ID, "PAINTED-GATE")
                                .put(Attributes.SPECIFIC_CHARACTER_SET, "ISO_IR 100")
                                .put(Attributes.PATIENT_NAME, "EXEMPEL^ZOË^^^")
                                .put(Attributes.ACCESSION_NUMBER, "A-77")
                                .put(Attributes.STUDY_DESCRIPTION, "Photographs")))
                .isInstanceOf(ReadBack.Outcome.Same.class);
    }

    @Test
    @DisplayName("a name whose other scripts were lost or changed is another name")
    void scripts() throws IOException {
        Path ours = wrapped("--patient-name", "Exempel^Zoe=例^丸=れい^まる", "--view", "teeth-buccal-right-direct");
        differs(outcome(ours, kept -> kept.put(Attributes.PATIENT_NAME, "Exempel^Zoe")), "PatientName", true);
        differs(outcome(ours, kept -> kept.put(Attributes.PATIENT_NAME, "Exempel^Zoe=例^角=れい^まる")), "PatientName", true);
    }

    @Test
    @DisplayName("a rejection note that names another object, or none, is not the same")
    void rejectionNote() throws IOException {
        RejectionNote note = RejectionNote.of(
                        List.of(DicomFile.read(wrapped()).dataSet()),
                        RejectionNote.Reason.WRONG_VIEW,
                        OffsetDateTime.parse("2026-03-02T10:15:00+01:00"))
                .get(0);
        Path ours = folder.resolve("note.dcm");
        DicomFile.write(ours, note.dataSet(), note.transferSyntax());
        assertThat(outcome(ours, kept -> {})).isInstanceOf(ReadBack.Outcome.Same.class);
        differs(
                outcome(ours, kept -> kept.putEmpty(Attributes.CURRENT_REQUESTED_PROCEDURE_EVIDENCE_SEQUENCE)),
                "names other objects",
                false);
    }
}
