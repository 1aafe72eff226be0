package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import vestibule.bridge.archive.EmbeddedArchive;
import vestibule.dicom.data.Bulk;
import vestibule.dicom.data.DataSet;
import vestibule.dicom.data.Uid;
import vestibule.dicom.dict.Attributes;
import vestibule.dicom.dict.Uids;
import vestibule.dicom.io.DataSetCodec;
import vestibule.dicom.io.TransferSyntax;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.RetrieveOutcome;
import vestibule.dicom.service.RetrieveUser;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

@DisplayName("The embedded archive gives back what it was given, and names never become paths")
@Timeout(60)
class ArchiveRetrieveTest {

    private static final AeTitle US = new AeTitle("VESTIBULE");
    private static final Uid PHOTO = Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE;
    private static final Uid PLAIN = Uids.EXPLICIT_VR_LITTLE_ENDIAN;

    @TempDir
    Path folder;

    private EmbeddedArchive archive;

    @BeforeEach
    void start() throws IOException {
        archive = PracticeFolder.archive(folder);
    }

    @AfterEach
    void stop() {
        archive.close();
    }

    private Association open(AssociationRequest request) throws IOException {
        return Association.open(
                request, new ApplicationEntity(new AeTitle("ARCHIVE"), "127.0.0.1", archive.port()), Deadlines.DEFAULT);
    }

    private static byte[] object(String instance, String study, String name) throws IOException {
        DataSet dataSet = DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, PHOTO.value())
                .put(Attributes.SOP_INSTANCE_UID, instance)
                .put(Attributes.STUDY_INSTANCE_UID, study)
                .put(Attributes.SERIES_INSTANCE_UID, study + ".1")
                .put(Attributes.PATIENT_NAME, name)
                .build();
        return DataSetCodec.encode(dataSet, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.QUERY);
    }

    private StoreOutcome store(String announced, byte[] dataSet) throws IOException {
        AssociationRequest request = AssociationRequest.of(US, List.of(ProposedContext.of(PHOTO, PLAIN)));
        try (Association association = open(request)) {
            return new StorageUser(association).store(PHOTO, new Uid(announced), PLAIN, Bulk.of(dataSet));
        }
    }

    private RetrieveOutcome get(QueryLevel level, DataSet keys, List<Uid> kept) throws IOException {
        Path arriving = Files.createDirectories(folder.resolve("arriving"));
        StorageProvider storage = new StorageProvider(List.of(PHOTO), List.of(PLAIN), arriving, 1 << 20, received -> {
            kept.add(received.sopInstance());
            return Status.SUCCESS;
        });
        QueryLevel.Model model = QueryLevel.Model.STUDY_ROOT;
        try (Association association = open(RetrieveUser.getRequest(US, model, storage.contexts()))) {
            return new RetrieveUser(association, model).get(level, keys, storage);
        }
    }

    @Test
    @DisplayName("one object, a list of objects, a study; a query's keys are refused in a retrieve")
    void levels() throws IOException {
        for (String each : List.of("1.2.3.1.1", "1.2.3.1.2", "1.2.3.1.3")) {
            assertThat(store(each, object(each, "1.2.3", "Wintergreen^Otto"))).isEqualTo(new StoreOutcome.Stored(0));
        }
        DataSet study =
                DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "1.2.3").build();
        List<Uid> whole = new ArrayList<>();
        assertThat(get(QueryLevel.STUDY, study, whole))
                .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(3, 0, 0)));
        assertThat(whole).containsExactly(new Uid("1.2.3.1.1"), new Uid("1.2.3.1.2"), new Uid("1.2.3.1.3"));
        List<Uid> two = new ArrayList<>();
        DataSet images = study.toBuilder()
                .put(Attributes.SERIES_INSTANCE_UID, "1.2.3.1")
                .put(Attributes.SOP_INSTANCE_UID, "1.2.3.1.1", "1.2.3.1.3")
                .build();
        assertThat(get(QueryLevel.IMAGE, images, two))
                .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(2, 0, 0)));
        assertThat(two).containsExactly(new Uid("1.2.3.1.1"), new Uid("1.2.3.1.3"));
        DataSet named = study.toBuilder().put(Attributes.PATIENT_NAME, "W*").build();
        assertThat(get(QueryLevel.STUDY, named, two)).isInstanceOf(RetrieveOutcome.Refused.class);
        DataSet anything =
                DataSet.builder().put(Attributes.STUDY_INSTANCE_UID, "*").build();
        assertThat(get(QueryLevel.STUDY, anything, two)).isInstanceOf(RetrieveOutcome.Refused.class);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"../../outside", "/tmp/outside", "..\\outside", "1.2.3/../../outside", "con", "1.2.3\n", ""})
    @DisplayName("an object whose own name is a path is not taken, and nothing appears outside the archive's folder")
    void hostileNames(String name) throws IOException {
        assertThat(store("1.2.3.9", object(name, "1.2.3", "../../outside"))).isInstanceOf(StoreOutcome.Refused.class);
        assertThat(everything()).containsExactly(folder.resolve("archive"));
    }

    @Test
    @DisplayName("paths in the values of an accepted object and in the keys of a query are text like any other")
    void hostileValues() throws IOException {
        assertThat(store("1.2.3.9", object("1.2.3.9", "1.2.3", "../../outside^/etc/passwd")))
                .isEqualTo(new StoreOutcome.Stored(0));
        assertThat(everything())
                .containsExactlyInAnyOrder(folder.resolve("archive"), folder.resolve("archive/1.2.3.9.dcm"));
        DataSet keys = DataSet.builder()
                .put(Attributes.STUDY_INSTANCE_UID, "../../../etc")
                .build();
        assertThat(get(QueryLevel.STUDY, keys, new ArrayList<>())).isInstanceOf(RetrieveOutcome.Refused.class);
    }

    /** All there is, but for the archive's own empty register of commitments. */
    private List<Path> everything() throws IOException {
        Path register = folder.resolve("archive").resolve("commitments");
        try (Stream<Path> files = Files.walk(folder)) {
            return files.filter(path -> !path.equals(folder) && !path.equals(register))
                    .toList();
        }
    }
}
