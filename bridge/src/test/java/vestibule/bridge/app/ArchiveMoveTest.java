package vestibule.bridge.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
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
import vestibule.dicom.net.AcceptorSettings;
import vestibule.dicom.net.AeTitle;
import vestibule.dicom.net.ApplicationEntity;
import vestibule.dicom.net.Association;
import vestibule.dicom.net.AssociationListener;
import vestibule.dicom.net.AssociationRequest;
import vestibule.dicom.net.Deadlines;
import vestibule.dicom.net.ProposedContext;
import vestibule.dicom.service.QueryLevel;
import vestibule.dicom.service.RetrieveOutcome;
import vestibule.dicom.service.RetrieveUser;
import vestibule.dicom.service.ServiceProvider;
import vestibule.dicom.service.Status;
import vestibule.dicom.service.StorageProvider;
import vestibule.dicom.service.StorageUser;
import vestibule.dicom.service.StoreOutcome;

@DisplayName("The embedded archive sends objects to the destinations it was told of, and to no other")
@Timeout(60)
class ArchiveMoveTest {

    private static final AeTitle VIEWER = new AeTitle("VIEWER");
    private static final AeTitle ARCHIVE = new AeTitle("ARCHIVE");
    private static final Uid PHOTO = Uids.VL_PHOTOGRAPHIC_IMAGE_STORAGE;
    private static final Uid PLAIN = Uids.EXPLICIT_VR_LITTLE_ENDIAN;
    private static final QueryLevel.Model MODEL = QueryLevel.Model.STUDY_ROOT;

    @TempDir
    Path folder;

    private static byte[] object(String instance) throws IOException {
        DataSet dataSet = DataSet.builder()
                .put(Attributes.SOP_CLASS_UID, PHOTO.value())
                .put(Attributes.SOP_INSTANCE_UID, instance)
                .put(Attributes.STUDY_INSTANCE_UID, "1.2.3")
                .put(Attributes.SERIES_INSTANCE_UID, "1.2.3.1")
                .build();
        return DataSetCodec.encode(dataSet, TransferSyntax.EXPLICIT_VR_LITTLE_ENDIAN, DataSetCodec.Strictness.QUERY);
    }

    private AssociationListener viewer(List<Uid> kept) throws IOException {
        Path arriving = Files.createDirectories(folder.resolve("arriving"));
        return new ServiceProvider(
                        List.of(new StorageProvider(List.of(PHOTO), List.of(PLAIN), arriving, 1 << 20, object -> {
                            kept.add(object.sopInstance());
                            return Status.SUCCESS;
                        })))
                .listen(
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        AcceptorSettings.of(VIEWER, List.of()));
    }

    @Test
    @DisplayName("a study stored here reaches the destination, another destination is refused with A801")
    void move() throws Exception {
        List<Uid> kept = new CopyOnWriteArrayList<>();
        try (AssociationListener viewer = viewer(kept);
                EmbeddedArchive archive = EmbeddedArchive.start(
                        folder.resolve("archive"),
                        new InetSocketAddress(InetAddress.getLoopbackAddress(), 0),
                        ARCHIVE,
                        Optional.empty(),
                        Map.of(),
                        ArchiveCommand.destinations(
                                List.of("VIEWER=127.0.0.1:" + viewer.address().getPort())));
                Association association = Association.open(
                        AssociationRequest.of(
                                new AeTitle("VESTIBULE"),
                                List.of(ProposedContext.of(PHOTO, PLAIN), RetrieveUser.moveProposal(MODEL))),
                        new ApplicationEntity(ARCHIVE, "127.0.0.1", archive.port()),
                        Deadlines.DEFAULT)) {
            for (String each : List.of("1.2.3.1.1", "1.2.3.1.2")) {
                assertThat(new StorageUser(association).store(PHOTO, new Uid(each), PLAIN, Bulk.of(object(each))))
                        .isEqualTo(new StoreOutcome.Stored(0));
            }
            DataSet study = DataSet.builder()
                    .put(Attributes.STUDY_INSTANCE_UID, "1.2.3")
                    .build();
            RetrieveUser user = new RetrieveUser(association, MODEL);
            assertThat(user.move(QueryLevel.STUDY, study, VIEWER))
                    .isEqualTo(new RetrieveOutcome.Done(new RetrieveOutcome.Counts(2, 0, 0)));
            assertThat(kept).containsExactly(new Uid("1.2.3.1.1"), new Uid("1.2.3.1.2"));
            RetrieveOutcome other = user.move(QueryLevel.STUDY, study, new AeTitle("OTHER"));
            assertThat(((RetrieveOutcome.Refused) other).status().code()).isEqualTo(0xA801);
            assertThat(kept).hasSize(2);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "VIEWER",
                "VIEWER=",
                "=127.0.0.1:104",
                "VIEWER=127.0.0.1",
                "VIEWER=127.0.0.1:0",
                "VIEWER=127.0.0.1:65536",
                "A TITLE THAT IS TOO LONG=127.0.0.1:104",
                "   =127.0.0.1:104"
            })
    @DisplayName("a destination that is none ends the command at once, with the form that is expected")
    void unusable(String given) {
        Ran ran = Ran.vestibule(
                "archive", "--port", "0", "--folder", folder.resolve("kept").toString(), "--destination", given);
        assertThat(ran.exit()).isEqualTo(Exit.USAGE.code());
        assertThat(ran.err())
                .contains("--destination " + given + ": expected AE=HOST:PORT")
                .contains("as VIEWER=127.0.0.1:11113");
        assertThat(folder.resolve("kept")).doesNotExist();
    }

    @Test
    @DisplayName("two addresses for one title are a doubt, and an address may be one of IPv6")
    void several() throws Failure {
        assertThat(ArchiveCommand.destinations(List.of("ONE=[::1]:104", "TWO=viewer.example:11113")))
                .containsOnly(
                        Map.entry(new AeTitle("ONE"), new ApplicationEntity(new AeTitle("ONE"), "::1", 104)),
                        Map.entry(
                                new AeTitle("TWO"),
                                new ApplicationEntity(new AeTitle("TWO"), "viewer.example", 11_113)));
        assertThatThrownBy(() -> ArchiveCommand.destinations(List.of("ONE=127.0.0.1:104", "ONE=127.0.0.1:105")))
                .isInstanceOf(Failure.class)
                .hasMessageContaining("ONE has an address already");
    }
}
