package vestibule.conformance.network;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import vestibule.conformance.peer.DcmtkArchive;
import vestibule.conformance.peer.OrthancProcess;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DicomFile;
import vestibule.dicom.io.DicomFormatException;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.QueryOutcome;
import vestibule.dicom.service.QueryUser;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

@DisplayName(
        "Twenty names in every character set that has their letters, stored and found again (PS3.3 C.12.1.1.2, PS3.5 6.2.1)")
@Timeout(240)
class NamesThroughQueryTest {

    private static final QueryLevel.Model MODEL = QueryLevel.Model.STUDY_ROOT;

    private static final List<String> NAMES = List.of(
            "Wintergreen^Otto",
            "Müller^Jürgen",
            "Weiß^Zoë^^Dr.",
            "Čapková^Šárka",
            "Żółć^Łucja",
            "Ħaġar^Ġorġ",
            "Ķikut^Ēriks",
            "Люкceмбypг^Ольга",
            "Διονυσίου^Μαρία",
            "قباني^نزار",
            "שרון^דבורה",
            "Yıldız^Şule",
            "Œuvrard^Anaïs",
            "ﾔﾏﾀﾞ^ﾀﾛｳ",
            "นามสกุล^ชื่อ",
            "Yamada^Tarou=山田^太郎=やまだ^たろう",
            "Hong^Gildong=洪^吉洞=홍^길동",
            "Wang^XiaoDong=王^小东",
            "Zhang^Lin=张^林=",
            "Zoë^Ngô=吳^佐=");

    /** Values of (0008,0005), several parted by backslashes. */
    private static final List<String> SETS = List.of(
            "",
            "ISO_IR 100",
            "ISO_IR 101",
            "ISO_IR 109",
            "ISO_IR 110",
            "ISO_IR 144",
            "ISO_IR 127",
            "ISO_IR 126",
            "ISO_IR 138",
            "ISO_IR 148",
            "ISO_IR 203",
            "ISO_IR 13",
            "ISO_IR 166",
            "ISO_IR 192",
            "GB18030",
            "GBK",
            "\\ISO 2022 IR 87",
            "ISO 2022 IR 13\\ISO 2022 IR 87",
            "\\ISO 2022 IR 149",
            "\\ISO 2022 IR 58",
            "ISO 2022 IR 6\\ISO 2022 IR 100\\ISO 2022 IR 144");

    /** What Orthanc makes another text of; we write UTF-8 where ASCII is not enough, which it reads whole. */
    private static final Map<String, String> NOT_READ_BY_ORTHANC = Map.of(
            "ISO_IR 203", "a set of a later edition, which it does not know: letters beyond ASCII are left out",
            "ISO 2022 IR 13\\ISO 2022 IR 87", "of several sets it reads all text by one",
            "ISO 2022 IR 6\\ISO 2022 IR 100\\ISO 2022 IR 144", "of several sets it reads all text by one");

    @TempDir
    private Path folder;

    private final Map<String, String> nameById = new LinkedHashMap<>();
    private final Map<String, String> setById = new LinkedHashMap<>();
    private final List<DicomFile> files = new ArrayList<>();

    @BeforeEach
    void writeEach() throws IOException {
        for (String set : SETS) {
            for (String name : NAMES) {
                write(set, name);
            }
        }
        assertThat(setById.values()).as("every set has a name it can write").containsAll(SETS);
        assertThat(nameById.values())
                .as("every name has a set that can write it")
                .containsAll(NAMES);
    }

    /** Nothing is written where the set does not have the letters. */
    private void write(String set, String name) throws IOException {
        String id = "N" + nameById.size();
        DataSet.Builder dataSet = DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE.value())
                .put(Attributes.SOP_INSTANCE_UID, "2.25.9." + (nameById.size() + 1))
                .put(Attributes.STUDY_INSTANCE_UID, "2.25.7." + (nameById.size() + 1))
                .put(Attributes.SERIES_INSTANCE_UID, "2.25.8." + (nameById.size() + 1))
                .put(Attributes.STUDY_DATE, "20260105")
                .put(Attributes.STUDY_TIME, "101500")
                .put(Attributes.STUDY_ID, "1")
                .put(Attributes.ACCESSION_NUMBER, "")
                .put(Attributes.MODALITY, "XC")
                .put(Attributes.PATIENT_NAME, name)
                .put(Attributes.PATIENT_ID, id);
        if (!set.isEmpty()) {
            dataSet.put(Attributes.SPECIFIC_CHARACTER_SET, set.split("\\\\", -1));
        }
        Path file = folder.resolve(id + ".dcm");
        try {
            DicomFile.write(file, dataSet.build(), TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN);
        } catch (DicomFormatException notInThisSet) {
            assertThat(Files.exists(file)).isFalse();
            return;
        }
        files.add(DicomFile.read(file));
        nameById.put(id, name);
        setById.put(id, set);
    }

    private static Association open(ApplicationEntity peer, List<ProposedContext> contexts) throws IOException {
        return Association.open(AssociationRequest.of(Receiving.TITLE, contexts), peer, Deadlines.DEFAULT);
    }

    /** Names that come back otherwise, by the character set they were stored in. */
    private Map<String, List<String>> differences(ApplicationEntity peer) throws IOException {
        try (Association association = open(peer, StorageUser.proposals(files))) {
            for (DicomFile file : files) {
                assertThat(new StorageUser(association).store(file)).isEqualTo(new StoreOutcome.Stored(0));
            }
        }
        DataSet keys = DataSet.builder()
                .putEmpty(Attributes.PATIENT_NAME)
                .put(Attributes.PATIENT_ID, "N*")
                .build();
        QueryOutcome outcome;
        try (Association association = open(peer, List.of(QueryUser.proposal(MODEL)))) {
            outcome = new QueryUser(association, MODEL).find(QueryLevel.STUDY, keys, 1000, Duration.ofMinutes(1));
        }
        assertThat(outcome).isInstanceOf(QueryOutcome.Complete.class);
        Map<String, String> found = outcome.matches().stream()
                .collect(Collectors.toMap(
                        match -> match.text(Attributes.PATIENT_ID).orElseThrow(),
                        match -> match.text(Attributes.PATIENT_NAME).orElse("")));
        Map<String, List<String>> differences = new LinkedHashMap<>();
        nameById.forEach((id, name) -> {
            // Empty components at the end may be left out (PS3.5 6.2)
            if (!name.replaceAll("=+$", "")
                    .equals(found.getOrDefault(id, "absent").replaceAll("=+$", ""))) {
                differences
                        .computeIfAbsent(setById.getOrDefault(id, ""), set -> new ArrayList<>())
                        .add("%s came back as %s".formatted(name, found.get(id)));
            }
        });
        return differences;
    }

    @Test
    @DisplayName("through DCMTK's archive")
    void dcmtk() throws IOException {
        try (DcmtkArchive archive = DcmtkArchive.start(folder)) {
            assertThat(differences(new ApplicationEntity(new AeTitle(archive.title()), "127.0.0.1", archive.port())))
                    .isEmpty();
        }
    }

    @Test
    @DisplayName("through Orthanc, which answers in UTF-8 what it has taken in, but for the sets it does not know")
    void orthanc() throws IOException {
        try (OrthancProcess archive = OrthancProcess.start("Utf8", Receiving.TITLE.value(), 1)) {
            assertThat(differences(new ApplicationEntity(new AeTitle(archive.title()), archive.host(), archive.port())))
                    .containsOnlyKeys(NOT_READ_BY_ORTHANC.keySet());
        }
    }
}
